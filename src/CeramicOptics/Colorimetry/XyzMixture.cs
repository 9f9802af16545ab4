using CeramicOptics.Spectra;
using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Colorimetry;

/// <summary>Three spectra mixed so that the mixture has given tristimulus values.</summary>
internal static class XyzMixture
{
    private const double LargestConditionNumber = 1e8;

    /// <summary>Values of the mixture, which may be negative; null when the three colours lie in one plane.</summary>
    public static double[]? Find(IReadOnlyList<Spectrum> spectra, IReadOnlyList<Xyz> colors, Xyz target)
    {
        Matrix<double> matrix = Matrix<double>.Build.Dense(
            3, 3, (i, j) => i == 0 ? colors[j].X : i == 1 ? colors[j].Y : colors[j].Z);
        if (!(matrix.ConditionNumber() < LargestConditionNumber))
        {
            return null;
        }

        double[] share = matrix.Solve(Vector<double>.Build.DenseOfArray([target.X, target.Y, target.Z])).ToArray();
        double[] values = new double[spectra[0].Grid.Count];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = (share[0] * spectra[0][i]) + (share[1] * spectra[1][i]) + (share[2] * spectra[2][i]);
        }

        return values;
    }
}
