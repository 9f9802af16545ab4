using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Layers.Lateral;

/// <summary>
/// One substance at one wavelength and lateral frequency: the transfer equation as a pair of symmetric matrices.
/// </summary>
/// <remarks>
/// For fluxes down and up, f+ and f-, divided by the root of the étendue of their direction, s = f+ + f- and d = f+ -
/// f- follow dd/dz = -A s, ds/dz = -B d. Scattering couples directions of one azimuthal order; the lateral frequency
/// couples neighbouring orders of one direction by k tan θ / sqrt(2) (orders 0 and 1) or k tan θ / 2. With J the signs
/// of the orders, J A and B J are symmetric.
/// </remarks>
internal sealed class LateralLayer
{
    // A layer without absorption and scattering, and at k = 0 without anything, would have no matrix B⁻¹; rounding is
    // 1e-16 divided by this.
    private const double LeastDepth = 1e-7;

    private readonly LateralDirections _directions;
    private readonly MediumDirections _medium;
    private readonly LateralPhase _phase;
    private readonly double _extinction, _scattering;

    public LateralLayer(LateralDirections directions, TransportLayer layer, LateralPhase phase)
    {
        (_directions, _medium, _phase) = (directions, directions.Grid.In(layer.RefractiveIndex), phase);
        _scattering = layer.ScatteringPerMm * (1 - phase.ForwardPeak);
        _extinction = layer.AbsorptionPerMm + _scattering;
        RefractiveIndex = layer.RefractiveIndex;
    }

    public double RefractiveIndex { get; }

    /// <summary>Unknowns in the layer.</summary>
    public int Count => _directions.First(_medium.Count);

    /// <summary>At least the largest rate of change with depth, 1/mm.</summary>
    public double LargestRatePerMm(double frequencyPerMm)
    {
        double largest = 0;
        for (int i = 0; i < _medium.Count; i++)
        {
            double cosine = _medium.Cosines[i];
            largest = Math.Max(largest, (_extinction + (frequencyPerMm * Math.Sqrt(1 - (cosine * cosine)))) / cosine);
        }

        return largest;
    }

    /// <summary>Way through the layer in a direction, in mean free paths.</summary>
    public double Depth(int direction, double thicknessMm) =>
        Math.Max(LeastDepth, _extinction * thicknessMm) / _medium.Cosines[direction];

    /// <summary>J A and B J, all entries, for a layer of at least this thickness.</summary>
    public void Fill(double frequencyPerMm, double thicknessMm, LateralMatrix ja, LateralMatrix bj)
    {
        double extinction = Math.Max(_extinction, LeastDepth / thicknessMm);
        for (int i = 0; i < _medium.Count; i++)
        {
            int first = _directions.First(i), orders = _directions.OrdersOf(i);
            double cosine = _medium.Cosines[i], coupling = frequencyPerMm * Math.Sqrt(1 - (cosine * cosine)) / cosine;
            for (int m = 0; m < orders; m++)
            {
                double sign = m % 2 == 0 ? 1 : -1;
                ja.Row(first + m).Clear();
                bj.Row(first + m).Clear();
                for (int j = 0; j < _medium.Count; j++)
                {
                    if (m < _directions.OrdersOf(j))
                    {
                        double factor = sign * _scattering / 2
                            * Math.Sqrt(_medium.Weights[i] * _medium.Weights[j] / (cosine * _medium.Cosines[j]));
                        ja[first + m, _directions.First(j) + m] = -factor * _phase.Even(m, i, j);
                        bj[first + m, _directions.First(j) + m] = -factor * _phase.Odd(m, i, j);
                    }
                }

                ja[first + m, first + m] += sign * extinction / cosine;
                bj[first + m, first + m] += sign * extinction / cosine;
            }

            if (orders > 1)
            {
                // What goes on to higher orders is lost: the endless chain of orders answers its first
                // with r = (k tan θ / 2)² / (μt/μ + r).
                double sign = orders % 2 == 0 ? -1 : 1, own = extinction / cosine;
                double passedOn = (Math.Sqrt((own * own) + (coupling * coupling)) - own) / 2;
                ja[first + orders - 1, first + orders - 1] += sign * passedOn;
                bj[first + orders - 1, first + orders - 1] += sign * passedOn;
            }

            for (int m = 0; m + 1 < orders; m++)
            {
                double c = (m == 0 ? Math.Sqrt(0.5) : 0.5) * (m % 2 == 0 ? coupling : -coupling);
                (ja[first + m, first + m + 1], ja[first + m + 1, first + m]) = (c, c);
                (bj[first + m, first + m + 1], bj[first + m + 1, first + m]) = (-c, -c);
            }
        }
    }
}
