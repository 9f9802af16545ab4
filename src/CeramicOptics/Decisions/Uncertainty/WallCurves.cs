using CeramicOptics.Decisions.Comparison;

namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>Colours of a wall and of its masking reference over thickness; references only where they move.</summary>
internal sealed record WallCurves(ColorCurve Colors, ColorCurve? References)
{
    public void Evaluate(double x, Span<double> colors, Span<double> references)
    {
        Colors.Evaluate(x, colors);
        References?.Evaluate(x, references);
    }
}
