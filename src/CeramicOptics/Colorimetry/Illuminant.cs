using CeramicOptics.Data;
using CeramicOptics.Spectra;

namespace CeramicOptics.Colorimetry;

/// <summary>A light source by its relative spectral power.</summary>
/// <remarks>
/// Tables of CIE 15:2018 at 5 nm, except D65, which is given at 1 nm by the linear interpolation that the standard
/// prescribes (ISO/CIE 11664-2); other daylight follows from the daylight components. Sums at 1 nm
/// interpolate wider steps by Lagrange's cubic (ASTM E2022). Immutable and safe to share.
/// </remarks>
public sealed class Illuminant
{
    /// <summary>A source from the caller's own spectrum.</summary>
    /// <param name="name">Name to show in results.</param>
    /// <param name="power">
    /// Relative power; it must reach from 380 to 780 nm to be used with a <see cref="Colorimeter"/>.
    /// </param>
    public Illuminant(string name, PowerSpectrum power)
    {
        Name = Guard.NotBlank(name);
        Power = Guard.NotNull(power);
    }

    /// <summary>Name, such as "D65".</summary>
    public string Name { get; }

    /// <summary>Relative spectral power.</summary>
    public PowerSpectrum Power { get; }

    /// <summary>All illuminants with a CIE name that the library carries.</summary>
    /// <remarks>
    /// A, C, E, D50 to D75; fluorescent F1 to F6 (standard), F7 to F9 (broad-band), F10 to F12 (three-band); LED-B1 to
    /// LED-B5 (blue with phosphor, 2733, 2998, 4103, 5109 and 6598 K), LED-BH1 (blue and red, 2851 K), LED-RGB1 (2840
    /// K), LED-V1 and LED-V2 (violet with phosphor, 2724 and 4070 K); ID50 and ID65 (daylight behind window glass).
    /// </remarks>
    public static IReadOnlyList<Illuminant> All { get; } = Guard.Copy(
    [
        Table("A", CieTables.IlluminantAStartNm, CieTables.IlluminantAStepNm, CieTables.IlluminantA),
        Table("C", CieTables.IlluminantCStartNm, CieTables.IlluminantCStepNm, CieTables.IlluminantC),
        EqualEnergy(),
        Table("D50", CieTables.IlluminantD50StartNm, CieTables.IlluminantD50StepNm, CieTables.IlluminantD50),
        Table("D55", CieTables.IlluminantD55StartNm, CieTables.IlluminantD55StepNm, CieTables.IlluminantD55),
        new("D65", LinearAtOneNm(
            CieTables.IlluminantD65StartNm, CieTables.IlluminantD65StepNm, CieTables.IlluminantD65)),
        Table("D75", CieTables.IlluminantD75StartNm, CieTables.IlluminantD75StepNm, CieTables.IlluminantD75),
        Table("F1", CieTables.IlluminantFL1StartNm, CieTables.IlluminantFL1StepNm, CieTables.IlluminantFL1),
        Table("F2", CieTables.IlluminantFL2StartNm, CieTables.IlluminantFL2StepNm, CieTables.IlluminantFL2),
        Table("F3", CieTables.IlluminantFL3StartNm, CieTables.IlluminantFL3StepNm, CieTables.IlluminantFL3),
        Table("F4", CieTables.IlluminantFL4StartNm, CieTables.IlluminantFL4StepNm, CieTables.IlluminantFL4),
        Table("F5", CieTables.IlluminantFL5StartNm, CieTables.IlluminantFL5StepNm, CieTables.IlluminantFL5),
        Table("F6", CieTables.IlluminantFL6StartNm, CieTables.IlluminantFL6StepNm, CieTables.IlluminantFL6),
        Table("F7", CieTables.IlluminantFL7StartNm, CieTables.IlluminantFL7StepNm, CieTables.IlluminantFL7),
        Table("F8", CieTables.IlluminantFL8StartNm, CieTables.IlluminantFL8StepNm, CieTables.IlluminantFL8),
        Table("F9", CieTables.IlluminantFL9StartNm, CieTables.IlluminantFL9StepNm, CieTables.IlluminantFL9),
        Table("F10", CieTables.IlluminantFL10StartNm, CieTables.IlluminantFL10StepNm, CieTables.IlluminantFL10),
        Table("F11", CieTables.IlluminantFL11StartNm, CieTables.IlluminantFL11StepNm, CieTables.IlluminantFL11),
        Table("F12", CieTables.IlluminantFL12StartNm, CieTables.IlluminantFL12StepNm, CieTables.IlluminantFL12),
        Table("LED-B1", CieTables.IlluminantLEDB1StartNm, CieTables.IlluminantLEDB1StepNm, CieTables.IlluminantLEDB1),
        Table("LED-B2", CieTables.IlluminantLEDB2StartNm, CieTables.IlluminantLEDB2StepNm, CieTables.IlluminantLEDB2),
        Table("LED-B3", CieTables.IlluminantLEDB3StartNm, CieTables.IlluminantLEDB3StepNm, CieTables.IlluminantLEDB3),
        Table("LED-B4", CieTables.IlluminantLEDB4StartNm, CieTables.IlluminantLEDB4StepNm, CieTables.IlluminantLEDB4),
        Table("LED-B5", CieTables.IlluminantLEDB5StartNm, CieTables.IlluminantLEDB5StepNm, CieTables.IlluminantLEDB5),
        Table(
            "LED-BH1", CieTables.IlluminantLEDBH1StartNm, CieTables.IlluminantLEDBH1StepNm, CieTables.IlluminantLEDBH1),
        Table(
            "LED-RGB1", CieTables.IlluminantLEDRGB1StartNm, CieTables.IlluminantLEDRGB1StepNm,
            CieTables.IlluminantLEDRGB1),
        Table("LED-V1", CieTables.IlluminantLEDV1StartNm, CieTables.IlluminantLEDV1StepNm, CieTables.IlluminantLEDV1),
        Table("LED-V2", CieTables.IlluminantLEDV2StartNm, CieTables.IlluminantLEDV2StepNm, CieTables.IlluminantLEDV2),
        Table("ID50", CieTables.IlluminantID50StartNm, CieTables.IlluminantID50StepNm, CieTables.IlluminantID50),
        Table("ID65", CieTables.IlluminantID65StartNm, CieTables.IlluminantID65StepNm, CieTables.IlluminantID65),
    ]);

    /// <summary>Incandescent light, 2856 K.</summary>
    public static Illuminant A { get; } = Named("A");

    /// <summary>Daylight, nominal 5000 K.</summary>
    public static Illuminant D50 { get; } = Named("D50");

    /// <summary>Daylight, nominal 6500 K.</summary>
    public static Illuminant D65 { get; } = Named("D65");

    /// <summary>Fluorescent light F2 (standard, cool white).</summary>
    public static Illuminant F2 { get; } = Named("F2");

    /// <summary>Fluorescent light F11 (three-band, cool white).</summary>
    public static Illuminant F11 { get; } = Named("F11");

    /// <summary>LED light LED-B3 (blue with phosphor, 4103 K).</summary>
    public static Illuminant LedB3 { get; } = Named("LED-B3");

    /// <summary>The illuminant with a CIE name.</summary>
    /// <param name="name">
    /// For example "D65", "F11" (or "FL11", the name since 2004) or "LED-B3", in upper or lower case.
    /// </param>
    /// <exception cref="ArgumentException">No such illuminant; the message lists the names.</exception>
    public static Illuminant Named(string name) =>
        All.FirstOrDefault(illuminant =>
            illuminant.Name.Equals(name, StringComparison.OrdinalIgnoreCase) || (illuminant.Name[0] == 'F'
                && ("FL" + illuminant.Name.TrimStart('F')).Equals(name, StringComparison.OrdinalIgnoreCase)))
        ?? throw new ArgumentException(
            $"Unknown illuminant '{name}'; allowed: {string.Join(", ", All.Select(illuminant => illuminant.Name))}.",
            nameof(name));

    /// <summary>Daylight of a correlated colour temperature, from the daylight components.</summary>
    /// <param name="temperatureKelvin">
    /// Correlated colour temperature, 4000 to 25000 K, taken as it is (no nominal shift).
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">Temperature outside its range or NaN.</exception>
    /// <remarks>
    /// CIE 15:2004, eqs. 3.3 to 3.6; the factors M1 and M2 are rounded to three decimals as the CIE prescribes, and
    /// values between those of the 5 nm components are interpolated linearly, as those of D65 are. The tables of D50,
    /// D55 and D75 hold what this gives for 5000, 5500 and 7500 K times 1.4388/1.4380 every 5 nm.
    /// </remarks>
    public static Illuminant Daylight(double temperatureKelvin)
    {
        Guard.InRange(temperatureKelvin, 4000, 25000, "K");
        return new Illuminant($"D({Guard.Text(temperatureKelvin)} K)", DaylightPower(temperatureKelvin));
    }

    /// <summary>Radiation of a black body.</summary>
    /// <param name="temperatureKelvin">Temperature, 1000 to 100000 K.</param>
    /// <exception cref="ArgumentOutOfRangeException">Temperature outside its range or NaN.</exception>
    /// <remarks>
    /// Planck's law with c2 = 1.4388e-2 m K (CIE 15:2004, 3.2), relative to 560 nm, 300 to 830 nm at 5 nm.
    /// </remarks>
    public static Illuminant Planckian(double temperatureKelvin)
    {
        Guard.InRange(temperatureKelvin, 1000, 100000, "K");
        return new Illuminant($"P({Guard.Text(temperatureKelvin)} K)", PlanckianPower(temperatureKelvin));
    }

    /// <inheritdoc/>
    public override string ToString() => Name;

    internal static PowerSpectrum PlanckianPower(double t)
    {
        const double SecondConstantNmK = 1.4388e7, ReferenceNm = 560;
        WavelengthGrid grid = WavelengthGrid.Range(300, 830, 5);
        double[] power = new double[grid.Count];
        for (int i = 0; i < power.Length; i++)
        {
            power[i] = Math.Pow(ReferenceNm / grid[i], 5)
                * (Math.Exp(SecondConstantNmK / (t * ReferenceNm)) - 1)
                / (Math.Exp(SecondConstantNmK / (t * grid[i])) - 1);
        }

        return new PowerSpectrum(grid, power);
    }

    private static PowerSpectrum DaylightPower(double t)
    {
        double x = t <= 7000
            ? (((((-4.6070e9 / t) + 2.9678e6) / t) + 0.09911e3) / t) + 0.244063
            : (((((-2.0064e9 / t) + 1.9018e6) / t) + 0.24748e3) / t) + 0.237040;
        double y = (-3 * x * x) + (2.870 * x) - 0.275;
        double m = 0.0241 + (0.2562 * x) - (0.7341 * y);
        double m1 = Math.Round((-1.3515 - (1.7703 * x) + (5.9114 * y)) / m, 3);
        double m2 = Math.Round((0.0300 - (31.4424 * x) + (30.0717 * y)) / m, 3);
        ReadOnlySpan<double> s0 = CieTables.DaylightComponentsS0;
        ReadOnlySpan<double> s1 = CieTables.DaylightComponentsS1, s2 = CieTables.DaylightComponentsS2;
        double[] power = new double[s0.Length];
        for (int i = 0; i < power.Length; i++)
        {
            // Extreme temperatures turn the tails below 320 nm negative by the third decimal; power is not negative.
            power[i] = Math.Max(0, s0[i] + (m1 * s1[i]) + (m2 * s2[i]));
        }

        return LinearAtOneNm(CieTables.DaylightComponentsStartNm, CieTables.DaylightComponentsStepNm, power);
    }

    private static Illuminant EqualEnergy()
    {
        double[] power = new double[107];
        power.AsSpan().Fill(100);
        return new Illuminant("E", new PowerSpectrum(new WavelengthGrid(300, 5, power.Length), power));
    }

    private static PowerSpectrum LinearAtOneNm(double startNm, double stepNm, ReadOnlySpan<double> values)
    {
        int perStep = (int)stepNm;
        double[] power = new double[((values.Length - 1) * perStep) + 1];
        for (int i = 0; i < power.Length; i++)
        {
            int left = Math.Min(i / perStep, values.Length - 2), beyond = i - (left * perStep);
            power[i] = ((values[left] * (perStep - beyond)) + (values[left + 1] * beyond)) / perStep;
        }

        return new PowerSpectrum(new WavelengthGrid(startNm, 1, power.Length), power);
    }

    private static Illuminant Table(string name, double startNm, double stepNm, ReadOnlySpan<double> power) =>
        new(name, new PowerSpectrum(new WavelengthGrid(startNm, stepNm, power.Length), power));
}
