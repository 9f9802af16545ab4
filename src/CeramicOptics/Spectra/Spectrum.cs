namespace CeramicOptics.Spectra;

/// <summary>Values of one optical quantity over a <see cref="WavelengthGrid"/>.</summary>
/// <remarks>
/// Immutable and safe to share; every instance owns its values. The quantities are separate types (reflectance,
/// absorption, scattering, illuminant power) and never convert into each other by themselves. No value is NaN or
/// infinite.
/// </remarks>
public abstract class Spectrum : IEquatable<Spectrum>
{
    private readonly double[] _values;

    private protected Spectrum(
        WavelengthGrid grid, ReadOnlySpan<double> values, string quantity, double min, double max, string unit)
    {
        Grid = Guard.NotNull(grid);
        if (values.Length != grid.Count)
        {
            throw new ArgumentException($"{quantity}: {values.Length} values given for {grid}.", nameof(values));
        }

        for (int i = 0; i < values.Length; i++)
        {
            if (!(values[i] >= min && values[i] <= max))
            {
                string hint = max <= ReflectanceSpectrum.Maximum && values[i] > 2
                    ? " Values in percent must be divided by 100."
                    : "";
                throw new InputProblem(
                    InputProblemKind.OutOfRange, quantity.ToLowerInvariant(), null, values[i], unit.TrimStart(), min,
                    max).ToException(
                    nameof(values),
                    $"{quantity} at {Guard.Text(grid[i])} nm (index {i}) must be in [{Guard.Text(min)}, "
                        + $"{Guard.Text(max)}]{unit} but is {Guard.Text(values[i])}{unit}.{hint}");
            }
        }

        _values = values.ToArray();
    }

    /// <summary>The wavelengths of the values.</summary>
    public WavelengthGrid Grid { get; }

    /// <summary>The values, one for each wavelength of <see cref="Grid"/>.</summary>
    public ReadOnlySpan<double> Values => _values;

    /// <summary>The value at position <paramref name="index"/> of the grid.</summary>
    /// <param name="index">0 to Grid.Count - 1.</param>
    public double this[int index] => _values[index];

    /// <summary>Equal when of the same quantity, on equal grids, with equal values.</summary>
    public bool Equals(Spectrum? other) =>
        other is not null && GetType() == other.GetType() && Grid.Equals(other.Grid) && Values.SequenceEqual(
            other.Values);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as Spectrum);

    /// <inheritdoc/>
    public override int GetHashCode() => (Grid, _values[0], _values[_values.Length / 2], _values[_values.Length - 1])
        .GetHashCode();

    /// <summary>Value equality.</summary>
    public static bool operator ==(Spectrum? left, Spectrum? right) =>
        left is null ? right is null : left.Equals(right);

    /// <summary>Value inequality.</summary>
    public static bool operator !=(Spectrum? left, Spectrum? right) => !(left == right);

    /// <summary>The name of the quantity and the grid.</summary>
    public override string ToString() => $"{GetType().Name}, {Grid}";

    private protected static double[] Constant(WavelengthGrid grid, double value)
    {
        double[] values = new double[Guard.NotNull(grid).Count];
        values.AsSpan().Fill(value);
        return values;
    }
}
