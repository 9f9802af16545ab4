namespace CeramicOptics.Characterization.Photographs;

/// <summary>How well a method predicts each patch of the chart from all others.</summary>
public sealed class CorrectionEvaluation : Formattable
{
    internal CorrectionEvaluation(CorrectionMethod method, CorrectionStatus status, IReadOnlyList<double>? differences)
    {
        (Method, Status, Terms) = (method, status, CorrectionTerms.Of(method).Count);
        (MeanDifference, LargestDifference) = (differences?.Average(), differences?.Max());
    }

    /// <summary>The method.</summary>
    public CorrectionMethod Method { get; }

    /// <summary>Number of its terms.</summary>
    internal int Terms { get; }

    /// <summary>Whether it could be judged.</summary>
    public CorrectionStatus Status { get; }

    /// <summary>Mean leave-one-out difference over the chart, CIEDE2000; null where it could not be judged.</summary>
    public double? MeanDifference { get; }

    /// <summary>Largest leave-one-out difference of the chart, CIEDE2000; null where it could not be judged.</summary>
    public double? LargestDifference { get; }

    /// <summary>For example "root polynomial of degree 2 (6 terms): mean 0.84, largest 3.10".</summary>
    private protected override string InWords(Language language) => language.Text(
        Status == CorrectionStatus.Evaluated ? "CorrectionEvaluation" : $"CorrectionEvaluation.{Status}", Method, Terms,
        MeanDifference, LargestDifference);
}
