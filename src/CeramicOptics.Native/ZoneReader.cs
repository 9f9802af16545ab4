using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Native;

/// <summary>Reads the zones of a case, and how it is seen.</summary>
internal static unsafe class ZoneReader
{
    private const int MaximumZones = 256, MaximumIlluminants = 32;

    public static List<Zone> Read(in CaseInput input, WavelengthGrid grid, double maxMm)
    {
        int count = Fields.InRange(input.ZoneCount, 1, MaximumZones, "case.zone_count");
        Fields.Pointer(input.Zones, "case.zones");
        List<Zone> zones = [];
        for (int i = 0; i < count; i++)
        {
            Fields.Size(input.Zones[i].Size, sizeof(ZoneInput), "ceramic_zone");
            zones.Add(ZoneOf(input.Zones[i], $"case.zones[{i}]", grid, maxMm));
        }

        return zones;
    }

    public static ViewingConditions ViewingOf(in CaseInput input)
    {
        Observer observer = Fields.Choice(
            input.Observer, 2, "case.observer", "CERAMIC_2_DEGREES (1) or CERAMIC_10_DEGREES (2)") == 1
            ? Observer.Cie1931TwoDegree
            : Observer.Cie1964TenDegree;
        int count = Fields.InRange(input.IlluminantCount, 1, MaximumIlluminants, "case.illuminant_count");
        Fields.Pointer(input.Illuminants, "case.illuminants");
        List<Colorimeter> colorimeters = [];
        for (int i = 0; i < count; i++)
        {
            string place = $"case.illuminants[{i}]", name = Fields.Name(input.Illuminants[i], place);
            colorimeters.Add(Fields.Of(place, () => new Colorimeter(observer, Illuminant.Named(name))));
        }

        return new ViewingConditions { Colorimeters = colorimeters };
    }

    public static InputUncertainty UncertaintyOf(UncertaintyInput* input)
    {
        if (input == null)
        {
            return new InputUncertainty();
        }

        UncertaintyInput given = *input;
        Fields.Size(given.Size, sizeof(UncertaintyInput), "ceramic_uncertainty");
        InputUncertainty usual = new InputUncertainty();
        static double Or(double value, double other) => double.IsNaN(value) ? other : value;
        return Fields.Of("case.uncertainty->", () => new InputUncertainty
        {
            CoreMm = Or(given.CoreMm, usual.CoreMm),
            VeneerMm = Or(given.VeneerMm, usual.VeneerMm),
            GlazeMm = Or(given.GlazeMm, usual.GlazeMm),
            LinerMm = Or(given.LinerMm, usual.LinerMm),
            CementMm = Or(given.CementMm, usual.CementMm),
            StumpReflectance = Or(given.StumpReflectance, usual.StumpReflectance),
            TargetColor = Or(given.TargetColor, usual.TargetColor),
            RefractiveIndex = Or(given.RefractiveIndex, usual.RefractiveIndex),
            ModelColor = double.IsNaN(given.ModelColor) ? usual.ModelColor : given.ModelColor,
        });
    }

    private static Zone ZoneOf(ZoneInput input, string place, WavelengthGrid grid, double maxMm)
    {
        string name = Fields.Name(input.Name, $"{place}.name");
        Substrate stump = StumpOf(input, $"{name} stump", place, grid);
        ColorReference reference = ReferenceOf(input, place);
        StrengthLimit strength = StrengthOf(input, place);
        return Fields.Of("case.max_mm", () => new Zone(name, stump, maxMm, reference) { Strength = strength });
    }

    private static Substrate StumpOf(ZoneInput input, string name, string place, WavelengthGrid grid)
    {
        int kind = Fields.Choice(
            input.Stump, 2, $"{place}.stump", "CERAMIC_STUMP_DIFFUSING (1) or CERAMIC_STUMP_METAL (2)");
        string field = $"{place}.stump_reflectance";
        double[] values = Fields.Numbers(input.StumpReflectance, grid.Count, field);
        ReflectanceSpectrum bare = Fields.Of(field, () => new ReflectanceSpectrum(grid, values));
        if (kind == 2)
        {
            Fields.Unset(input.StumpRefractiveIndex, $"{place}.stump_refractive_index", "a metal has no inside");
            Fields.Unset(input.StumpSpotMm, $"{place}.stump_spot_mm", "a metal loses no light sideways");
            Fields.Unset(input.StumpWindowMm, $"{place}.stump_window_mm", "a metal loses no light sideways");
            return Fields.Of(field, () => Substrate.OpaqueMetal(name, bare));
        }

        RefractiveIndex index = Fields.Of<RefractiveIndex>(
            $"{place}.stump_refractive_index", () => input.StumpRefractiveIndex);
        ReadingArea area = AreaOf(input.StumpSpotMm, input.StumpWindowMm, $"{place}.stump");
        return Fields.Of(field, () => Substrate.FromMeasuredReflectance(name, bare, index,
            MeasurementGeometry.DiffuseSpecularIncluded, area: area));
    }

    private static ReadingArea AreaOf(double spotMm, double windowMm, string place) =>
        double.IsNaN(spotMm) && double.IsNaN(windowMm) ? ReadingArea.NotStated
        : double.IsPositiveInfinity(spotMm) && double.IsPositiveInfinity(windowMm) ? ReadingArea.Large
        : Fields.Of(
            $"{place}_spot_mm, {place}_window_mm (INFINITY for both: large; NaN for both: not known)",
            () => ReadingArea.Circular(spotMm, windowMm));

    private static ColorReference ReferenceOf(ZoneInput input, string place)
    {
        int kind = Fields.Choice(
            input.Reference, 2, $"{place}.reference", "CERAMIC_SELF_BACKED (1) or CERAMIC_TARGET (2)");
        if (kind == 1)
        {
            const string SelfBacked = "the reference is CERAMIC_SELF_BACKED";
            Fields.Unset(input.TargetL, $"{place}.target_lab[0]", SelfBacked);
            Fields.Unset(input.TargetSpotMm, $"{place}.target_spot_mm", SelfBacked);
            Fields.Unset(input.TargetWindowMm, $"{place}.target_window_mm", SelfBacked);
            return MaskingReference.SelfBacked;
        }

        ReadingArea area = AreaOf(input.TargetSpotMm, input.TargetWindowMm, $"{place}.target");
        return Fields.Of($"{place}.target_lab", () => Target.FromColor(
            "target", new Lab(input.TargetL, input.TargetA, input.TargetB), Colorimeter.D65TwoDegree,
            MeasurementGeometry.DiffuseSpecularIncluded, area));
    }

    private static StrengthLimit StrengthOf(ZoneInput input, string place)
    {
        int scope = Fields.Choice(
            input.Strength, 3, $"{place}.strength",
            "CERAMIC_STRENGTH_NOT_GIVEN (1), CERAMIC_STRENGTH_OF_CORE (2) or CERAMIC_STRENGTH_OF_CORE_AND_VENEER (3)");
        if (scope == 1)
        {
            Fields.Unset(
                input.StrengthLimitMm, $"{place}.strength_limit_mm", "strength is CERAMIC_STRENGTH_NOT_GIVEN");
            return StrengthLimit.NotGiven;
        }

        return Fields.Of($"{place}.strength_limit_mm", () => StrengthLimit.Of(
            input.StrengthLimitMm, scope == 2 ? StrengthScope.Core : StrengthScope.CoreAndVeneer));
    }
}
