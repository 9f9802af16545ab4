using CeramicOptics.Spectra;

namespace CeramicOptics.Colorimetry;

/// <summary>
/// Power times matching function at the wavelengths that tristimulus values are summed over, in units of the source.
/// </summary>
/// <remarks>
/// 360 to 780 nm at 1 nm (ASTM E308), or what the tables of the observer and the illuminant have of it. Tables with
/// wider steps are interpolated by Lagrange's cubic (ASTM E2022).
/// </remarks>
internal sealed class TristimulusNodes
{
    /// <summary>The sum at 1 nm runs from here, unless a table begins later.</summary>
    public const double StartNm = 360;

    /// <summary>The sum ends here.</summary>
    public const double EndNm = 780;

    private const double PowerFromNm = 380, TableStepNm = 1;

    /// <exception cref="ArgumentException">
    /// The power does not reach from 380 to 780 nm, or stimulates X, Y or Z not at all.
    /// </exception>
    public TristimulusNodes(Observer observer, PowerSpectrum power, string source, double stepNm = TableStepNm)
    {
        if (power.Grid.StartNm > PowerFromNm || power.Grid.EndNm < EndNm)
        {
            throw new ArgumentException(
                $"{source} must reach from {Guard.Text(PowerFromNm)} to {Guard.Text(EndNm)} nm "
                + $"but is given at {power.Grid}.");
        }

        double startNm = Math.Ceiling(Math.Max(StartNm, Math.Max(power.Grid.StartNm, observer.Grid.StartNm)) - 1e-9);
        Grid = new WavelengthGrid(startNm, stepNm, (int)Math.Round((EndNm - startNm) / stepNm) + 1);
        double[] p = LagrangeCubic.Resample(power.Grid, power.Values, Grid);
        X = Times(p, observer.Grid, observer.X);
        Y = Times(p, observer.Grid, observer.Y);
        Z = Times(p, observer.Grid, observer.Z);
        Sum = new Xyz(X.Sum(), Y.Sum(), Z.Sum());
        if (!(Sum.X > 0 && Sum.Y > 0 && Sum.Z > 0))
        {
            throw new ArgumentException(
                $"{source} gives X {Guard.Text(Sum.X)}, Y {Guard.Text(Sum.Y)}, Z {Guard.Text(Sum.Z)}; "
                + "a white needs all three above 0.");
        }
    }

    /// <summary>Wavelengths of the sum.</summary>
    public WavelengthGrid Grid { get; }

    public double[] X { get; }

    public double[] Y { get; }

    public double[] Z { get; }

    /// <summary>Tristimulus values of the source itself.</summary>
    public Xyz Sum { get; }

    /// <summary>
    /// Step of the sum for spectra on these grids: 1 nm, or the whole part of it that is no wider than the finest of
    /// them.
    /// </summary>
    public static double StepFor(WavelengthGrid one, WavelengthGrid other) =>
        TableStepNm / Math.Max(1, Math.Ceiling((TableStepNm / Math.Min(one.StepNm, other.StepNm)) - 1e-9));

    private double[] Times(double[] power, WavelengthGrid grid, ReadOnlySpan<double> function)
    {
        double[] product = LagrangeCubic.Resample(grid, function, Grid);
        for (int i = 0; i < product.Length; i++)
        {
            product[i] *= power[i];
        }

        return product;
    }
}
