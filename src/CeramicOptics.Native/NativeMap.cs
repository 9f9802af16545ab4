using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;

namespace CeramicOptics.Native;

/// <summary>A map over the thickness of the wall, or over those of veneer and core.</summary>
internal abstract class NativeMap
{
    public abstract int Zones { get; }

    public virtual bool IsTwoLayer => false;

    public abstract ThicknessRange Range(int zone);

    public virtual ThicknessRange? VeneerRange(int zone) => null;

    public abstract double ErrorBound(int zone);

    /// <summary>The requirement of a zone; under a veneer where there are two layers.</summary>
    public abstract ThicknessRequirement Requirement(int zone, double veneerMm);

    public abstract IEnumerable<Caution> Cautions(int zone);

    public abstract void Save(int zone, Stream stream);

    public abstract void Differences(PointBlock points, Span<double> destination);

    public abstract void Missing(PointBlock points, Span<double> destination, ThicknessGoal goal);

    public abstract void Statuses(PointBlock points, Span<PointStatus> destination);

    public abstract void Colors(PointBlock points, Span<Lab> destination);
}
