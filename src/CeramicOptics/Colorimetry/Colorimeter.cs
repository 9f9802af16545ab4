using CeramicOptics.Spectra;

namespace CeramicOptics.Colorimetry;

/// <summary>Computes colours of spectra for one observer and one illuminant.</summary>
/// <remarks>
/// Immutable and safe to share. Weights are made once for equal grids and kept, for the last 32 or fewer;
/// <see cref="Weighting"/> shows how they were made.
/// </remarks>
public sealed class Colorimeter : Formattable
{
    private readonly GridCache<WeightingTable> _tables = new();
    private readonly TristimulusNodes _nodes;

    /// <summary>A colorimeter for one observer and one illuminant.</summary>
    /// <param name="observer">A standard observer, or the caller's own.</param>
    /// <param name="illuminant">Light source; its spectrum must reach from 380 to 780 nm.</param>
    /// <exception cref="ArgumentException">
    /// The illuminant does not reach from 380 to 780 nm, or leaves X, Y or Z at zero.
    /// </exception>
    public Colorimeter(Observer observer, Illuminant illuminant)
    {
        Observer = Guard.NotNull(observer);
        Illuminant = Guard.NotNull(illuminant);
        Name = $"{illuminant.Name}/{observer.Name}";
        _nodes = Nodes(illuminant.Power.Grid);
        White = new Xyz(100 * _nodes.Sum.X / _nodes.Sum.Y, 100, 100 * _nodes.Sum.Z / _nodes.Sum.Y);
    }

    /// <summary>Daylight D65, 2 degree observer.</summary>
    public static Colorimeter D65TwoDegree { get; } = new(Observer.Cie1931TwoDegree, Illuminant.D65);

    /// <summary>Daylight D65, 10 degree observer.</summary>
    internal static Colorimeter D65TenDegree { get; } = new(Observer.Cie1964TenDegree, Illuminant.D65);

    /// <summary>Incandescent light A, 2 degree observer.</summary>
    public static Colorimeter ATwoDegree { get; } = new(Observer.Cie1931TwoDegree, Illuminant.A);

    /// <summary>The observer.</summary>
    public Observer Observer { get; }

    /// <summary>The illuminant.</summary>
    public Illuminant Illuminant { get; }

    /// <summary>Illuminant and observer, such as "D65/2°".</summary>
    public string Name { get; }

    /// <summary>Tristimulus values of the perfect diffuser, summed at 1 nm from 360 to 780 nm; Y = 100.</summary>
    public Xyz White { get; }

    /// <summary>True for one of the same observer and the same power spectrum, which gives the same colours.</summary>
    internal bool IsLike(Colorimeter other) =>
        Observer == other.Observer && Illuminant.Power == other.Illuminant.Power;

    /// <summary>The weights used for spectra on a grid.</summary>
    /// <param name="grid">Wavelengths of the spectra, at least from 400 to 700 nm.</param>
    /// <exception cref="ArgumentException">The grid does not reach from 400 to 700 nm.</exception>
    public WeightingTable Weighting(WavelengthGrid grid) =>
        _tables.GetOrAdd(Guard.NotNull(grid), MakeTable);

    /// <summary>Tristimulus values of a reflectance; Y = 100 for the perfect diffuser.</summary>
    /// <param name="reflectance">Spectrum that reaches at least from 400 to 700 nm.</param>
    /// <exception cref="ArgumentException">The spectrum does not reach from 400 to 700 nm.</exception>
    public Xyz ToXyz(ReflectanceSpectrum reflectance) =>
        Weighting(Guard.NotNull(reflectance).Grid).ToXyz(reflectance.Values);

    /// <summary>L*a*b* of a reflectance.</summary>
    /// <param name="reflectance">Spectrum that reaches at least from 400 to 700 nm.</param>
    /// <exception cref="ArgumentException">The spectrum does not reach from 400 to 700 nm.</exception>
    public Lab ToLab(ReflectanceSpectrum reflectance) =>
        Weighting(Guard.NotNull(reflectance).Grid).ToLab(reflectance.Values);

    /// <summary>Tristimulus values of transmitted light; Y = 100 for a specimen that passes all light.</summary>
    /// <param name="transmittance">Spectrum that reaches at least from 400 to 700 nm.</param>
    /// <exception cref="ArgumentException">The spectrum does not reach from 400 to 700 nm.</exception>
    public Xyz ToXyz(TransmittanceSpectrum transmittance) =>
        Weighting(Guard.NotNull(transmittance).Grid).ToXyz(transmittance.Values);

    /// <summary>L*a*b* of transmitted light, with a specimen that passes all light as white (CIE 15).</summary>
    /// <param name="transmittance">Spectrum that reaches at least from 400 to 700 nm.</param>
    /// <exception cref="ArgumentException">The spectrum does not reach from 400 to 700 nm.</exception>
    public Lab ToLab(TransmittanceSpectrum transmittance) =>
        Weighting(Guard.NotNull(transmittance).Grid).ToLab(transmittance.Values);

    /// <summary>
    /// The smoothest reflectance in (0, 1) that has a given colour under this observer and illuminant.
    /// </summary>
    /// <param name="color">The colour, for example a chairside reading.</param>
    /// <param name="grid">Wavelengths of the result, at least from 400 to 700 nm.</param>
    /// <exception cref="ArgumentException">The grid does not reach from 400 to 700 nm.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// No reflectance between 0 and 1 with that colour was found.
    /// </exception>
    /// <remarks>
    /// Many reflectances (metamers) share one colour; under another illuminant, or below another layer, they differ.
    /// Treat what follows from this spectrum as an estimate. Source: Burns 2020, Color Res. Appl. 45:8-21.
    /// </remarks>
    public ReflectanceSpectrum SmoothestReflectance(Lab color, WavelengthGrid grid)
    {
        WeightingTable table = Weighting(grid);
        Guard.InRange(color.L, 0, 100, "", "L*");
        Xyz xyz = color.ToXyz(table.White);
        double[,] weights = new double[3, grid.Count];
        for (int i = 0; i < grid.Count; i++)
        {
            (weights[0, i], weights[1, i], weights[2, i]) = (table.X[i] / 100, table.Y[i] / 100, table.Z[i] / 100);
        }

        double[]? values = SmoothestSpectrum.Find(weights, [xyz.X / 100, xyz.Y / 100, xyz.Z / 100]);
        return values is null ? throw Impossible(color) : new ReflectanceSpectrum(grid, values);
    }

    /// <summary>
    /// Refuses a colour whose X or Z is below 0 or above that of white, by more than errors of reading.
    /// </summary>
    internal void RequirePossible(Lab color)
    {
        const double Below = 0.01, Above = 0.05;
        Xyz xyz = color.ToXyz(White);
        (double x, double z) = (xyz.X / White.X, xyz.Z / White.Z);
        if (!(Math.Min(x, z) >= -Below && Math.Max(x, z) <= 1 + Above))
        {
            throw Impossible(color);
        }
    }

    private ArgumentOutOfRangeException Impossible(Lab color) =>
        new InputProblem(InputProblemKind.ImpossibleColor, "colour").ToException(
            nameof(color),
            $"No reflectance between 0 and 1 has the colour L* {Guard.Text(color.L)}, a* {Guard.Text(color.A)}, "
                + $"b* {Guard.Text(color.B)} under {Name}.");

    /// <summary>The mixture of three given spectra that has a given colour, such as of three measured teeth.</summary>
    /// <param name="color">The colour.</param>
    /// <param name="basis">Three spectra on one grid; their differences span the colours to be reached.</param>
    /// <exception cref="ArgumentException">
    /// Not three spectra, grids that differ, or spectra whose colours lie in one plane.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The mixture leaves 0 to 1 somewhere; names the wavelength. Such a colour is not like the basis.
    /// </exception>
    /// <remarks>
    /// Weights by a linear solution in XYZ, so the colour is met exactly. An alternative to the smoothest reflectance
    /// where the kind of body is known.
    /// </remarks>
    public ReflectanceSpectrum ReflectanceFromBasis(Lab color, IEnumerable<ReflectanceSpectrum> basis)
    {
        IReadOnlyList<ReflectanceSpectrum> spectra = Guard.Copy(basis, minimumCount: 3, maximumCount: 3);
        WavelengthGrid grid = spectra[0].Grid;
        for (int j = 1; j < 3; j++)
        {
            grid.RequireSame(spectra[j].Grid, $"Spectrum {Guard.Text(j + 1)} of the basis");
        }

        double[] values = XyzMixture.Find(spectra, [.. spectra.Select(ToXyz)], color.ToXyz(Weighting(grid).White))
            ?? throw new ArgumentException(
                $"The colours of the basis lie in one plane under {Name}; take spectra that differ more.",
                nameof(basis));
        for (int i = 0; i < values.Length; i++)
        {
            Guard.InRange(values[i], 0, 1, "", $"mixture at {Guard.Text(grid[i])} nm");
        }

        return new ReflectanceSpectrum(grid, values);
    }

    private protected override string InWords(Language language) =>
        language.Text("Colorimeter", Illuminant.Name, Observer.Name);

    private WeightingTable MakeTable(WavelengthGrid grid) =>
        new(grid.StepNm < _nodes.Grid.StepNm ? Nodes(grid) : _nodes, grid);

    private TristimulusNodes Nodes(WavelengthGrid grid)
    {
        double stepNm = TristimulusNodes.StepFor(Illuminant.Power.Grid, grid);
        return new TristimulusNodes(Observer, Illuminant.Power, $"Illuminant {Illuminant.Name}", stepNm);
    }
}
