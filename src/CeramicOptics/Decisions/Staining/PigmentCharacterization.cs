using CeramicOptics.Characterization;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Decisions.Staining;

/// <summary>K and S of a pigment from drawdowns of known load.</summary>
/// <remarks>
/// At each wavelength the readings of all layers are fitted together, by weighted least squares, with K and S of the
/// pigment and, unless it is known, of the carrier; all of them zero or above. Layers that hide their backing still
/// determine K/S; those that do not hide it determine both. With three loads or more the residuals show whether
/// coefficients add.
/// </remarks>
public static class PigmentCharacterization
{
    /// <summary>Finds a pigment.</summary>
    /// <param name="name">Name of the pigment.</param>
    /// <param name="drawdowns">Layers on one grid, one of them at least with pigment; where the carrier is not known,
    /// with two different ratios of load to carrier.</param>
    /// <param name="carrier">The carrier without pigment (fired, where the layers are), of the theory asked for; null
    /// to find it from the layers.</param>
    /// <param name="options">Theory; the default when null. Smoothness is not used.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work between two wavelengths.</param>
    /// <returns>K and S for one unit of load with uncertainties, or a finding, for each wavelength.</returns>
    /// <exception cref="ArgumentException">
    /// No layer with pigment; no two different ratios of load to carrier and no carrier; grids or models differ.
    /// </exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static PigmentResult Find(
        string name, IEnumerable<Drawdown> drawdowns, Material? carrier = null,
        CharacterizationOptions? options = null, IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        Guard.NotBlank(name);
        IReadOnlyList<Drawdown> layers = Guard.Copy(drawdowns, minimumCount: 1);
        IOpticalModel model = (options ?? new CharacterizationOptions()).Model;
        Check(name, layers, carrier, model);
        PigmentProblem problem = new(layers, carrier, model);
        WavelengthGrid grid = layers[0].Layer.Grid;
        List<Finding> findings = [];
        List<PigmentPoint> points = [];
        var fits = new PigmentFit?[grid.Count];
        for (int i = 0; i < fits.Length; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            PigmentFit fit = PigmentFit.Solve(problem, i);
            fits[i] = fit.Judge(problem, grid[i], findings) ? fit : null;
            points.Add(new PigmentPoint(
                grid[i], fit, problem.CarrierAt(fit.Values, i), isDetermined: fits[i] is not null));
            progress?.Report((i + 1) / (double)fits.Length);
        }

        return new PigmentResult(name, problem, fits, points, findings);
    }

    private static void Check(
        string name, IReadOnlyList<Drawdown> layers, Material? carrier, IOpticalModel model)
    {
        WavelengthGrid grid = layers[0].Layer.Grid;
        foreach (Drawdown layer in layers)
        {
            grid.RequireSame(layer.Layer.Grid, $"'{layer.Layer.Name}'");
            foreach (DiscReading reading in layer.Layer.Readings)
            {
                reading.RequireLargeArea("A fit of a pigment");
            }
        }

        if (layers.All(layer => layer.Load == 0))
        {
            throw new ArgumentException($"None of the layers holds any '{name}'; one at least must.");
        }

        if (carrier is not null)
        {
            grid.RequireSame(carrier.Grid, $"'{carrier.Name}'");
            if (!carrier.Model.IsSameTheoryAs(model))
            {
                throw new ArgumentException(
                    $"Carrier '{carrier.Name}' has K and S of {carrier.Model.Name} but '{name}' is to be found by "
                        + $"{model.Name}; ask for {carrier.Model.Name}, or recalibrate the carrier.", nameof(carrier));
            }
        }
        else if (!layers.Any(a => layers.Any(b =>
            Math.Abs((a.LoadAsRead * b.CarrierShare) - (b.LoadAsRead * a.CarrierShare))
                > 1e-9 * Math.Max(a.LoadAsRead, b.LoadAsRead))))
        {
            throw new ArgumentException(
                $"All layers hold '{name}' and carrier in the same ratio, so they cannot be told apart; add a layer "
                    + "of another load, or give the carrier.");
        }
    }
}
