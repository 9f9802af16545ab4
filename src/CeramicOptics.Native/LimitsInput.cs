using System.Runtime.InteropServices;
using CeramicOptics.Mapping;

namespace CeramicOptics.Native;

/// <summary>As <c>ceramic_limits</c> of the header.</summary>
[StructLayout(LayoutKind.Sequential)]
internal unsafe struct LimitsInput
{
    public uint Size;
    public uint Reserved;
    public double* MinimaMm;
    public double* MaximaMm;
    public int* Margin;
    public long MarginCount;
    public double MarginEdgeMm;
    public double MarginSlope;

    /// <summary>The limits of the points of a mesh; none for NULL.</summary>
    public static WallLimits Read(LimitsInput* given, int points)
    {
        if (given == null)
        {
            return WallLimits.None;
        }

        Fields.Size(given->Size, sizeof(LimitsInput), "ceramic_limits");
        LimitsInput input = *given;
        WallLimits limits = Fields.Of("limits", () => WallLimits.None.WithPoints(
            Numbers(input.MinimaMm, points), Numbers(input.MaximaMm, points)));
        int count = Fields.InRange(input.MarginCount, 0, int.MaxValue, "limits.margin_count");
        if (count == 0)
        {
            Fields.Unset(input.MarginEdgeMm, "limits.margin_edge_mm", "limits.margin_count is 0");
            Fields.Unset(input.MarginSlope, "limits.margin_slope", "limits.margin_count is 0");
            return limits;
        }

        Fields.Pointer(input.Margin, "limits.margin");
        for (int i = 0; i < count; i++)
        {
            if ((uint)input.Margin[i] >= (uint)points)
            {
                Fields.InRange(input.Margin[i], 0, points - 1, $"limits.margin[{i}]");
            }
        }

        return Fields.Of("limits.margin_", () => limits.WithMargin(
            new ReadOnlySpan<int>(input.Margin, count), input.MarginEdgeMm, input.MarginSlope));
    }

    private static ReadOnlySpan<double> Numbers(double* numbers, int points) =>
        numbers == null ? default : new(numbers, points);
}
