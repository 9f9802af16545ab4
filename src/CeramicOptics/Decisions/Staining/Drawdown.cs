using CeramicOptics.Characterization;

namespace CeramicOptics.Decisions.Staining;

/// <summary>
/// A layer of carrier drawn down with a known load of one pigment and read over backings; a <see cref="Pigment"/> is
/// found from such layers.
/// </summary>
/// <remarks>
/// The coefficients of such a layer are modelled as K = share K(carrier) + load K(pigment), and S likewise (Ma,
/// Johnston, Koran 1987, J. Dent. Res. 66:1438). Immutable.
/// </remarks>
public sealed record Drawdown : IFormattable
{
    /// <summary>Largest load of a drawdown, in the caller's unit.</summary>
    internal const double MostLoad = 1e6;

    /// <summary>A drawdown.</summary>
    /// <param name="load">Pigment in the layer as applied, in the caller's unit such as percent by mass, 0 to 1e6; 0
    /// for the carrier alone.</param>
    /// <param name="layer">Readings of the layer as it was read: thickness, backings, geometry and noise. Where the
    /// thickness is not known but the same for all layers, give all the same, such as 1 mm: K and S are then for that
    /// layer, not for a millimetre.</param>
    /// <exception cref="ArgumentOutOfRangeException">The load is outside its range or NaN.</exception>
    public Drawdown(double load, DiscSet layer)
    {
        Load = Guard.InRange(load, 0, MostLoad, "");
        Layer = Guard.NotNull(layer);
    }

    /// <summary>Pigment in the layer as applied, in the caller's unit.</summary>
    public double Load { get; }

    /// <summary>Readings of the layer.</summary>
    public DiscSet Layer { get; }

    /// <summary>
    /// Carrier in the layer as a share of that of the carrier alone, 0 to 1: 1 where the pigment hardly takes room (the
    /// default), 0 for the pigment alone.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double CarrierShare { get; init => field = Guard.InRange(value, 0, 1, "", nameof(CarrierShare)); } = 1;

    /// <summary>
    /// Share of the thickness that was lost in firing before the layer was read, 0 to 0.9; 0 for a layer read as
    /// applied. As in a <see cref="StainLayer"/>.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double FiringShrinkage { get; init => field = Guard.InRange(value, 0, 0.9, "", nameof(FiringShrinkage)); }

    /// <summary>Relative standard uncertainty of the load, 0 to 1; 0 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double LoadRelativeUncertainty
    {
        get;
        init => field = Guard.InRange(value, 0, 1, "", nameof(LoadRelativeUncertainty));
    }

    /// <summary>Load in the layer as read.</summary>
    internal double LoadAsRead => Load / (1 - FiringShrinkage);

    /// <summary>For example "ochre 2 %, discs of 0.05 mm, load 2".</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) =>
        Language.Of(provider).Text("Drawdown", Layer, Load);
}
