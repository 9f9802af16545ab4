using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Characterization;

/// <summary>Two readings of one disc over two backings, with what can be wrong with them whatever the theory.</summary>
internal sealed class DiscPair
{
    /// <summary>A difference below this many standard uncertainties is no difference.</summary>
    public const double DetectionFactor = 3;

    private const double SmallestContrast = 0.02;

    private readonly BoundaryCache _boundaries = new();
    private readonly bool _isTwoFlux;

    private DiscPair(DiscSet discs, bool isTwoFlux) => (Discs, _isTwoFlux) = (discs, isTwoFlux);

    public DiscSet Discs { get; }

    public double ThicknessMm => Discs.Readings[0].ThicknessMm;

    /// <summary>The readings as a pair; null when they are not two reflectances of one disc in one geometry.</summary>
    public static DiscPair? Of(DiscSet discs, IOpticalModel model)
    {
        IReadOnlyList<DiscReading> readings = discs.Readings;
        return readings.Count == 2 && !readings[0].IsTransmittance && !readings[1].IsTransmittance
            && readings[0].ThicknessMm == readings[1].ThicknessMm && readings[0].Geometry == readings[1].Geometry
            && readings[0].Area == readings[1].Area
            ? new DiscPair(discs, model is TwoFluxModel)
            : null;
    }

    public Reading At(int i)
    {
        double nm = Discs.Grid[i], index = Discs.RefractiveIndex.At(nm);
        SurfaceCorrection surface = _boundaries.Surface(Discs.Readings[0].Geometry, index);
        double Seen(DiscReading reading) => reading.Backing!.SeenFrom(index, nm, i, _boundaries);
        DiscReading[] byBacking = [.. Discs.Readings.OrderBy(Seen)];
        (DiscReading dark, DiscReading light) = (byBacking[0], byBacking[1]);
        return new Reading(
            surface, dark.Values[i], light.Values[i], Seen(dark), Seen(light), dark.StandardUncertainty,
            light.StandardUncertainty);
    }

    /// <summary>Why the readings at a wavelength cannot tell K and S; null when they can.</summary>
    public Finding? FaultOf(Reading at, int i)
    {
        double nm = Discs.Grid[i];
        if (at.Light <= at.Dark)
        {
            return new Finding(nm, FindingKind.BlackNotBelowWhite, at.Dark, at.Light);
        }

        if (at.Light - at.Dark < DetectionFactor * Math.Sqrt(
            (at.DarkNoise * at.DarkNoise) + (at.LightNoise * at.LightNoise)))
        {
            return new Finding(nm, FindingKind.TooOpaque, at.Light - at.Dark);
        }

        // Off the normal, radiative transfer may read a white body a little above what diffuse light inside would give.
        double low = at.Surface.Measured(0), high = at.Surface.Measured(1);
        if (at.Dark < low || (_isTwoFlux && at.Light > high))
        {
            return new Finding(
                nm, FindingKind.OutsideSurfaceModel, at.Dark, at.Light, low, high, Discs.RefractiveIndex.At(nm));
        }

        return at.LightBacking - at.DarkBacking < SmallestContrast
            ? new Finding(nm, FindingKind.BackingsAlike, at.DarkBacking, at.LightBacking)
            : null;
    }

    /// <summary>
    /// The pair at one wavelength: readings, what the disc sees of the backings, and standard uncertainties.
    /// </summary>
    public readonly record struct Reading(
        SurfaceCorrection Surface, double Dark, double Light, double DarkBacking, double LightBacking, double DarkNoise,
        double LightNoise);
}
