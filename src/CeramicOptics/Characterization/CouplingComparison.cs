using CeramicOptics.Layers;

namespace CeramicOptics.Characterization;

/// <summary>Fits readings with the other film between disc and backing.</summary>
internal static class CouplingComparison
{
    private const int MostWavelengths = 7, FewestWavelengths = 3;

    /// <summary>
    /// The comparison; null without a tile, where films differ between the readings, or where no wavelength can be
    /// fitted with the other film.
    /// </summary>
    public static CouplingCheck? Find(
        DiscSet discs, CharacterizationOptions options, CharacterizationResult result, CancellationToken cancellation)
    {
        Backing[] tiles = [.. discs.Readings.Select(reading => reading.Backing).Where(
            backing => backing is not null && backing.Substrate != Substrate.Black).Distinct()!];
        string[] films = [.. tiles.Select(tile => Name(tile.Coupling)).Distinct()];
        if (films.Length != 1)
        {
            return null;
        }

        bool isDry = tiles[0].Coupling?.RefractiveIndex == RefractiveIndex.Air;
        CouplingMedium other = isDry ? CouplingMedium.Glycerine : CouplingMedium.Air;
        DiscSet otherwise = DiscSet.Imagined(discs, discs.Readings.Select(
            reading => reading.Backing is not { } backing || (isDry && backing.Substrate == Substrate.Black)
                ? reading
                : reading.Over(new Backing(backing.Substrate, other))));
        DiscFit each = new(otherwise, options, cancellation);
        int freedom = discs.Readings.Count - 2;
        int count = Math.Min(discs.Grid.Count, freedom > 0 ? MostWavelengths : FewestWavelengths);
        double chi = 0, otherChi = 0;
        int compared = 0, determined = 0;
        (double K, double S) mean = default, otherMean = default;
        for (int k = 0; k < count; k++)
        {
            cancellation.ThrowIfCancellationRequested();
            int i = (int)((k + 0.5) * discs.Grid.Count / count);
            if (each.Solve(i) is not { } fit)
            {
                continue;
            }

            compared++;
            chi += result.Fit?.ChiSquare[i] ?? 0;
            otherChi += fit.ChiSquare;
            otherMean = (otherMean.K + fit.K, otherMean.S + fit.S);
            if (result.SolutionAt(i) is { } stated)
            {
                determined++;
                mean = (mean.K + stated.Absorption, mean.S + stated.Scattering);
            }
        }

        return compared == 0 ? null : new CouplingCheck(
            films[0], other.Name, chi, otherChi, freedom * compared,
            determined == 0 ? null : (mean.K / determined, mean.S / determined),
            (otherMean.K / compared, otherMean.S / compared));
    }

    private static string Name(CouplingMedium? film) => film?.Name ?? "contact";
}
