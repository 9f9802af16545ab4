using CeramicOptics.Layers;
using CeramicOptics.Layers.Lateral;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Spectra;

namespace CeramicOptics.Characterization;

/// <summary>
/// Converts a reading through a window into what a large area would read, for a thick body whose scattering is known or
/// assumed: a tooth, a stump, a tab.
/// </summary>
/// <remarks>
/// At each wavelength the absorption is found with which a homogeneous body of this scattering, 20 mm thick, gives the
/// reading through the window, by radiative transfer at lateral frequencies; the large reading is that of the same
/// body. A real tooth is layered and thinner. The uncertainty has the noise of the reading, that of the scattering, and
/// the anisotropy where it is not known.
/// </remarks>
public static class WindowCorrection
{
    private const double ThickMm = 20, LargestAbsorptionPerMm = 200, RelativeStep = 1e-4, Tolerance = 2e-5;
    private const int Rounds = 12;

    /// <summary>Finds what a large area would read.</summary>
    /// <param name="name">Name of the body, for messages.</param>
    /// <param name="read">Reflectance factors read through the window.</param>
    /// <param name="geometry">Geometry of the reading.</param>
    /// <param name="area">The area that the instrument illuminated and measured; must be stated.</param>
    /// <param name="body">What is known of the body.</param>
    /// <param name="readingStandardUncertainty">Standard uncertainty of one value, 1e-9 to 0.1.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work between two wavelengths.</param>
    /// <exception cref="ArgumentException">The area is not stated.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A reading is outside what such a body can give through the window (names the wavelength and the range), or a
    /// value is outside its range or NaN.
    /// </exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static LargeAreaReading Find(
        string name, ReflectanceSpectrum read, MeasurementGeometry geometry, ReadingArea area, BodyScattering body,
        double readingStandardUncertainty = 0.002, IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        Guard.NotNull(body);
        if (!Guard.NotNull(area).IsStated)
        {
            throw new ArgumentException(
                $"'{name}' cannot be corrected: the area that was lit and seen is not stated.", nameof(area));
        }

        // A set has two readings or more.
        DiscReading reading = DiscReading.Reflectance(
            name, ThickMm, read, new Backing(Substrate.Black, null), geometry, area, readingStandardUncertainty);
        Solver solver = new(new DiscSet(name, body.RefractiveIndex, [reading, reading]), body, cancellation);
        int n = read.Grid.Count;
        double[] values = new double[n], uncertainty = new double[n], lost = new double[n];
        for (int i = 0; i < n; i++)
        {
            (values[i], uncertainty[i], lost[i]) = solver.Solve(i);
            progress?.Report((i + 1) / (double)n);
        }

        return new LargeAreaReading(
            name, area, read, new ReflectanceSpectrum(read.Grid, values), uncertainty, lost);
    }

    private sealed class Solver
    {
        private readonly DiscSet _set;
        private readonly BodyScattering _body;
        private readonly TransportDiscModel _wide;
        private readonly WindowDiscModel _window;
        private readonly LateralDiscModel _lateral;
        private readonly LateralDiscModel[] _ends;
        private readonly CancellationToken _cancellation;

        public Solver(DiscSet set, BodyScattering body, CancellationToken cancellation)
        {
            AreaWeights areas = new();
            (_set, _body, _cancellation) = (set, body, cancellation);
            _wide = new TransportDiscModel(set, TransportModel.Default);
            _window = new WindowDiscModel(set, _wide, new TwoFluxDiscModel(set), areas);
            double own = body.Anisotropy ?? UnknownAnisotropy.Usual;
            _lateral = new LateralDiscModel(
                set, _wide, own, TransportLateralSampler.StreamsFor(own), areas, cancellation);
            _ends = body.Anisotropy is not null ? []
                : [.. ((double[])[UnknownAnisotropy.Least, UnknownAnisotropy.Most]).Select(end => new LateralDiscModel(
                    set, _wide, end, UnknownAnisotropy.CoarseStreams, areas, cancellation))];
        }

        public (double Value, double Uncertainty, double Lost) Solve(int i)
        {
            double k = Settled(i, 1), step = Math.Max(1e-6, RelativeStep * k);
            double wide = Wide(i, k, 1), through = Through(i, k, 1);
            double slope = (Wide(i, k + step, 1) - wide) / (Through(i, k + step, 1) - through);
            double noise = slope * _set.Readings[0].StandardUncertainty, sideways = 0, scattering = 0;
            double s = _body.ScatteringFor(k, 1);
            if (_ends.Length > 0)
            {
                double change = _ends[0].SharesAt(i, k, s)[0] - _ends[1].SharesAt(i, k, s)[0];
                sideways = slope * change * wide / 2 / Math.Sqrt(3);
            }

            if (_body.RelativeStandardUncertainty > 0)
            {
                // Towards less scattering, where the change is the larger.
                double factor = 1 - (_body.RelativeStandardUncertainty / 2);
                scattering = 2 * (Wide(i, Settled(i, factor), factor) - wide);
            }

            double lost = wide > 0 ? 1 - (through / wide) : 0;
            return (wide, Math.Sqrt((noise * noise) + (sideways * sideways) + (scattering * scattering)), lost);
        }

        // K at which the window reads what was read.
        private double Settled(int i, double factor)
        {
            double k = 0;
            for (int round = 0; round < Rounds; round++)
            {
                _cancellation.ThrowIfCancellationRequested();
                double next = Absorption(i, factor, _set.Readings[0].Values[i]), s = _body.ScatteringFor(next, factor);
                double before = _window.ShareOf(0, i, next, s);
                double[] shares = _lateral.SharesAt(i, next, s);
                _window.SetShares(i, next, s, shares);
                k = next;
                if (Math.Abs(shares[0] - before) < Tolerance)
                {
                    break;
                }
            }

            return k;
        }

        private double Absorption(int i, double factor, double read)
        {
            double high = Through(i, 0, factor), low = Through(i, LargestAbsorptionPerMm, factor);
            if (read > high && factor < 1)
            {
                return 0;
            }

            if (!(read <= high && read >= low))
            {
                throw new InputProblem(
                    InputProblemKind.OutOfRange, "reflectance", _set.Name, read, "", low, high).ToException(
                    nameof(read),
                    $"'{_set.Name}' at {Guard.Text(_set.Grid[i])} nm reads {Guard.Text(read)}, outside "
                        + $"[{Guard.Text(Math.Round(low, 4))}, {Guard.Text(Math.Round(high, 4))}], which a body of "
                        + $"reduced scattering {Guard.Text(factor * _body.ReducedScatteringPerMm)} 1/mm can give "
                        + $"through a {_set.Readings[0].Area}; check scattering, index and geometry.");
            }

            // The root of K, in which reflectance is nearly straight; regula falsi with the Illinois rule.
            double a = 0, b = Math.Sqrt(LargestAbsorptionPerMm), fa = high - read, fb = low - read, x = b;
            for (int step = 0; step < 100 && Math.Abs(b - a) > 1e-9 * b && fa != fb; step++)
            {
                x = fb == 0 ? b : ((a * fb) - (b * fa)) / (fb - fa);
                double f = Through(i, x * x, factor) - read;
                if (Math.Abs(f) < 1e-9)
                {
                    break;
                }

                if (f * fb < 0)
                {
                    (a, fa) = (b, fb);
                }
                else
                {
                    fa /= 2;
                }

                (b, fb) = (x, f);
            }

            return x * x;
        }

        private double Wide(int i, double k, double factor) => _wide.Value(0, i, k, _body.ScatteringFor(k, factor));

        private double Through(int i, double k, double factor) =>
            _window.Value(0, i, k, _body.ScatteringFor(k, factor));
    }
}
