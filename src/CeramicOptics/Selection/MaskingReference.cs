using System.Runtime.CompilerServices;
using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Selection;

/// <summary>The colour that a restoration over the stump is compared with.</summary>
public sealed class MaskingReference
{
    // The smoothest spectrum of a colour takes milliseconds; made once for each grid and kept as long as the grid lives.
    private readonly ConditionalWeakTable<WavelengthGrid, ReflectanceSpectrum> _estimates = new();

    private MaskingReference(string name) => Name = name;

    /// <summary>The same stack with the variable layer infinitely thick: the stump has no influence at all.</summary>
    public static MaskingReference SelfBacked { get; } = new("the same ceramic, infinitely thick");

    /// <summary>What the reference is, in words.</summary>
    public string Name { get; }

    internal Substrate? Substrate { get; private init; }

    internal ReflectanceSpectrum? Spectrum { get; private init; }

    internal (Lab Color, Colorimeter Under)? Color { get; private init; }

    /// <summary>The same stack, at the same thickness, over a good substrate such as a light tooth.</summary>
    /// <param name="substrate">The good substrate.</param>
    public static MaskingReference Over(Substrate substrate) =>
        new($"the same stack over {Guard.NotNull(substrate).Name}") { Substrate = substrate };

    /// <summary>A target colour known by its reflectance, such as a neighbour tooth read with a spectrophotometer.</summary>
    /// <param name="name">Name of the target.</param>
    /// <param name="target">Reflectance factor in the geometry of the result.</param>
    public static MaskingReference Target(string name, ReflectanceSpectrum target) =>
        new(Guard.NotBlank(name)) { Spectrum = Guard.NotNull(target) };

    /// <summary>A target colour known only as L*a*b*.</summary>
    /// <param name="name">Name of the target.</param>
    /// <param name="target">The colour.</param>
    /// <param name="under">Illuminant and observer it was read under.</param>
    /// <remarks>
    /// Under that illuminant and observer the colour is used as it is. Under others it is estimated from the smoothest reflectance
    /// with this colour, and the result says so.
    /// </remarks>
    public static MaskingReference Target(string name, Lab target, Colorimeter under) =>
        new(Guard.NotBlank(name)) { Color = (target, Guard.NotNull(under)) };

    /// <summary>True where a colour given as L*a*b* has to be estimated under another illuminant.</summary>
    internal bool IsEstimatedUnder(IEnumerable<Colorimeter> colorimeters) =>
        Color is { } given && colorimeters.Any(colorimeter => !SameConditions(colorimeter, given.Under));

    /// <summary>Colours of a target, one for each colorimeter; null where the reference is no target but moves with the stack.</summary>
    internal Lab[]? TargetColors(IReadOnlyList<Colorimeter> colorimeters, WavelengthGrid grid)
    {
        if (Color is { } given)
        {
            ReflectanceSpectrum? estimate = IsEstimatedUnder(colorimeters) ? _estimates.GetValue(grid, key => given.Under.SmoothestReflectance(given.Color, key)) : null;
            return [.. colorimeters.Select(colorimeter => SameConditions(colorimeter, given.Under) ? given.Color : colorimeter.ToLab(estimate!))];
        }

        if (Spectrum is null)
        {
            return null;
        }

        grid.RequireSame(Spectrum.Grid, $"Target '{Name}'");
        return [.. colorimeters.Select(colorimeter => colorimeter.ToLab(Spectrum))];
    }

    private static bool SameConditions(Colorimeter a, Colorimeter b) =>
        a.Observer == b.Observer && a.Illuminant.Power == b.Illuminant.Power;

    /// <inheritdoc/>
    public override string ToString() => Name;
}
