using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Delivered;

/// <summary>A restoration of one zone as it was planned, with its batch and furnace.</summary>
/// <remarks>Its viewing has one colorimeter, that of the colour that is predicted.</remarks>
internal sealed class PieceCase
{
    internal const string NoFurnace = "furnace not recorded";

    private const double ThinnestShare = 0.2;

    private static readonly Zone Any = new("any", Substrate.Black, 1, MaskingReference.SelfBacked);

    public PieceCase(Restoration plan, string batch, string? furnace)
    {
        if (plan.Zones.Count != 1)
        {
            throw new ArgumentException(
                $"The restoration of a piece must have one zone but has {Guard.Text(plan.Zones.Count)}; "
                    + "keep only the zone that was read (WithZones).");
        }

        (Plan, Zone, Kind) = (plan, plan.Zones[0], plan.WithZones([Any]));
        Keys =
        [
            new(CorrectedKind.WallThickness, "walls"), new(CorrectedKind.CementFilm, plan.Cement?.Material.Name ?? ""),
            new(CorrectedKind.StumpReflectance, "stumps"), new(CorrectedKind.AbsorptionScale, Ceramic.Name),
            new(CorrectedKind.ScatteringScale, Ceramic.Name),
            new(CorrectedKind.BatchAbsorptionScale, Ceramic.Name, batch),
            new(CorrectedKind.BatchScatteringScale, Ceramic.Name, batch),
            new(CorrectedKind.FurnaceL, furnace ?? NoFurnace),
            new(CorrectedKind.FurnaceA, furnace ?? NoFurnace),
            new(CorrectedKind.FurnaceB, furnace ?? NoFurnace),
        ];
    }

    public Restoration Plan { get; }

    public Zone Zone { get; }

    /// <summary>The restoration without its zone: what pieces that share one compiled wall have in common.</summary>
    public Restoration Kind { get; }

    public Material Ceramic => Plan.Core.Material;

    /// <summary>
    /// Thicknesses that its wall may be corrected to: from a fifth of what was planned on, and no thinner than its
    /// veneer. Colours of thinner ones say nothing of a piece that was delivered.
    /// </summary>
    public ThicknessRange Walls => new(
        Math.Max(ThinnestShare * Zone.AvailableMm, Plan.Veneer?.ThicknessMm ?? 0), Layer.MaximumThicknessMm);

    /// <summary>What its colour depends on, in the order of <see cref="CorrectedKind"/>.</summary>
    public IReadOnlyList<QuantityKey> Keys { get; }

    /// <summary>The one of these of a kind.</summary>
    public QuantityKey Key(CorrectedKind kind) => Keys[(int)kind];

    /// <summary>The case of a recorded piece, where both agree.</summary>
    public static PieceCase Of(DeliveredPiece piece, Restoration plan)
    {
        Same("ceramic", piece.Ceramic, plan.Core.Material.Name);
        Same("cement", piece.Cement ?? "none", plan.Cement?.Material.Name ?? "none");
        if (plan.Viewing.Geometry != piece.Predicted.Geometry)
        {
            throw new ArgumentException(
                $"Piece '{piece.Name}' was predicted and read in {piece.Predicted.Geometry} but the restoration given "
                    + $"for it is viewed in {plan.Viewing.Geometry}.");
        }

        PieceCase made = new(
            plan with { Viewing = plan.Viewing with { Colorimeters = [piece.Predicted.Under] } }, piece.Batch,
            piece.Furnace);
        Same("stump", piece.Stump, made.Zone.Stump.Name);
        return Math.Abs(made.Zone.AvailableMm - piece.WallMm) <= 1e-9
            ? made
            : throw new ArgumentException(
                $"Piece '{piece.Name}' has a wall of {Guard.Text(piece.WallMm)} mm but the restoration given for it "
                    + $"one of {Guard.Text(made.Zone.AvailableMm)} mm.");

        void Same(string what, string recorded, string given)
        {
            if (recorded != given)
            {
                throw new ArgumentException(
                    $"Piece '{piece.Name}' has the {what} '{recorded}' but the restoration given for it '{given}'.");
            }
        }
    }

    /// <summary>Slopes of the colour by each of <see cref="Keys"/>, in their order.</summary>
    public static ColorDeviation[] Slopes(PieceColor color) =>
    [
        color.Wall, color.Film, color.Stump, color.Absorption, color.Scattering, color.Absorption, color.Scattering,
        new(1, 0, 0), new(0, 1, 0), new(0, 0, 1),
    ];
}
