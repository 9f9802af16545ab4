using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Restorations;

/// <summary>A caution that belongs to a result and must be shown with it.</summary>
/// <remarks>Created by the library only; equal by value.</remarks>
public sealed record Caution : IFormattable
{
    // Films are about 0.02 to 0.2 mm thick (common practice, no source).
    private const double ThickFilmMm = 0.2;

    internal Caution(CautionKind kind, string? subject = null, double? value = null, string? ceramic = null) =>
        (Kind, Subject, Value, Ceramic) = (kind, subject, value, ceramic);

    /// <summary>What must be kept in mind.</summary>
    public CautionKind Kind { get; }

    /// <summary>Name of the material, zone, stump or reference it concerns; null where it concerns all.</summary>
    public string? Subject { get; }

    /// <summary>
    /// The number it states: mm for thicknesses, missing room and cement films; a share, 0 to 1, for reliability,
    /// continued spectra and light lost sideways; a number of points or walls or, without a subject, of choices; the
    /// largest standard uncertainty of L* for the theory; a colour difference for anisotropy and coarse meshes. Null
    /// when it states none.
    /// </summary>
    public double? Value { get; }

    /// <summary>
    /// Name of the material of the one ceramic it concerns, where several were compared; null where it concerns all.
    /// </summary>
    public string? Ceramic { get; }

    /// <inheritdoc/>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider)
    {
        Language language = Language.Of(provider);
        string form = Subject is null && CanCountChoices ? ".Choices"
            : Subject is not null && Kind == CautionKind.TwoFluxTheory ? ".Stack" : "";
        string text = language.Text($"Caution.{Kind}{form}", Subject, Value);
        return Ceramic is null ? text : language.Text("CautionOfCeramic", Ceramic, text);
    }

    // Stands for one zone, or for the number of choices to which it applies.
    private bool CanCountChoices =>
        Kind is CautionKind.BelowStructuralMinimum or CautionKind.NotReliable or CautionKind.DoesNotFit;

    /// <summary>True when subject and value are given as far as the words need them.</summary>
    internal bool IsComplete => Kind switch
    {
        CautionKind.StructuralMinimumGoverns or CautionKind.AboveRange or CautionKind.TooThickForTarget =>
            Subject is not null && Value is not null,
        CautionKind.AreaNotStated or CautionKind.LightLostSideways or CautionKind.ThickCement =>
            Subject is not null && Value is not null,
        CautionKind.WallBelowGoal or CautionKind.NoWallMeetsGoal => Subject is not null && Value is not null,
        CautionKind.BelowStructuralMinimum or CautionKind.NotReliable or CautionKind.DoesNotFit => Value is not null,
        CautionKind.TwoFluxTheory or CautionKind.ShortSpectrum or CautionKind.SteepLockedWall => Value is not null,
        CautionKind.UnknownAnisotropy or CautionKind.CoarseMesh => Value is not null,
        CautionKind.StrengthLimitNotGiven or CautionKind.EstimatedSpectrum or CautionKind.UncertaintyIncomplete =>
            Subject is not null,
        _ => true,
    };

    /// <summary>
    /// Cautions about a stump that is not one of the zones': an estimated spectrum, its reading area.
    /// </summary>
    internal static IEnumerable<Caution> OfStump(Substrate stump)
    {
        if (stump.IsEstimated)
        {
            yield return new Caution(CautionKind.EstimatedSpectrum, stump.Name);
        }

        if (OfArea(stump.Area, stump.Name, stump.LostShare) is { } area)
        {
            yield return area;
        }
    }

    private static Caution? OfArea(ReadingArea area, string name, Func<double> lostShare) =>
        !area.IsStated ? new Caution(CautionKind.AreaNotStated, name, Math.Round(lostShare(), 2))
        : area.HasWindow ? new Caution(CautionKind.LightLostSideways, name, Math.Round(lostShare(), 2))
        : null;

    internal static Caution Strength { get; } = new(CautionKind.StrengthNotAssessed);

    internal static Caution SidewaysLight { get; } = new(CautionKind.SidewaysLight);

    internal static Caution ToothReduction { get; } = new(CautionKind.ToothReduction);

    internal static Caution PredictionAlone { get; } = new(CautionKind.PredictionAlone);

    /// <summary>
    /// Cautions of every result about a restoration: strength, tooth, missing strength limits, theory, estimates, short
    /// spectra, unknown uncertainties.
    /// </summary>
    internal static IReadOnlyList<Caution> Of(Restoration restoration, IReadOnlyList<WeightingTable> tables)
    {
        List<Caution> cautions = [Strength, ToothReduction];
        if (restoration.Zones.Any(zone => restoration.StructuralMinimumMm(zone) is null))
        {
            cautions.Add(new Caution(CautionKind.StrengthLimitNotGiven, restoration.Core.Material.Name));
        }

        IReadOnlyList<(LayerRole Role, Layer Layer)> layers = restoration.LayersOf(restoration.WallRange.MaxMm);
        if (restoration.Core.Material.Model is TwoFluxModel)
        {
            cautions.Add(new Caution(
                CautionKind.TwoFluxTheory,
                value: Math.Round(restoration.Zones.Max(zone => restoration.OwnErrorAt(zone.AvailableMm).L), 2)));
        }

        Substrate[] stumps = [.. restoration.Zones.Select(zone => zone.Stump).Concat(
            restoration.Zones.Select(zone => (zone.Reference as MaskingReference)?.Substrate).OfType<Substrate>())
            .Distinct()];
        Target[] targets = [.. restoration.Zones.Select(zone => zone.Reference).OfType<Target>().Distinct()];
        cautions.AddRange(stumps.Where(stump => stump.IsEstimated)
            .Select(stump => new Caution(CautionKind.EstimatedSpectrum, stump.Name)));
        cautions.AddRange(targets.Where(target => target.IsEstimatedUnder(restoration.Viewing.Colorimeters))
            .Select(target => new Caution(CautionKind.EstimatedSpectrum, target.Name)));
        cautions.AddRange(stumps.Select(stump => OfArea(stump.Area, stump.Name, stump.LostShare)).OfType<Caution>());
        cautions.AddRange(
            targets.Select(target => OfArea(target.Area, target.Name, target.LostShare)).OfType<Caution>());
        if (restoration.Cement is { } cement && cement.ThicknessMm > ThickFilmMm)
        {
            cautions.Add(new Caution(CautionKind.ThickCement, cement.Material.Name, cement.ThicknessMm));
        }

        double held = tables.Max(table => table.HeldFraction);
        if (held > 0)
        {
            cautions.Add(new Caution(CautionKind.ShortSpectrum, value: held));
        }

        cautions.AddRange(layers.Where(item => item.Layer.Material.Uncertainty is null)
            .Select(item => new Caution(CautionKind.UncertaintyIncomplete, item.Layer.Material.Name)));
        return Guard.Copy(cautions.Distinct());
    }
}
