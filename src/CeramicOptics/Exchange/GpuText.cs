using System.Globalization;
using System.Text;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;

namespace CeramicOptics.Exchange;

/// <summary>What goes with the textures of a table: the function that reads them, and what they are.</summary>
internal static class GpuText
{
    public static string Glsl(GpuTable table, string name)
    {
        IReadOnlyList<GpuAxis> axes = table.Axes;
        bool isPlane = axes.Count > 1;
        string Vector(Func<GpuAxis, string> value) => isPlane ? $"vec2({value(axes[0])}, {value(axes[1])})"
            : value(axes[0]);
        string type = isPlane ? "vec2" : "float", at = isPlane ? "x" : "vec2(x, 0.5)",
            arguments = string.Join(", ", axes.Select(axis => $"highp float {axis.Name}Mm"));
        string inside = string.Join(
            " && ", axes.Select(axis =>
                $"{axis.Name}Mm >= {GpuAxis.Literal(axis.Range.MinMm)} && "
                    + $"{axis.Name}Mm <= {GpuAxis.Literal(axis.Range.MaxMm)}"));
        string isUnknown = string.Join(" || ", axes.Select(axis => $"isnan({axis.Name}Mm)"));
        string isBelow = string.Join(
            " || ", axes.Select(axis => $"{axis.Name}Mm < {GpuAxis.Literal(axis.Range.MinMm)}"));
        string otherwise =
            $"{isUnknown} ? {table.UnknownStatus}u : {isBelow} ? {table.BelowStatus}u : {table.AboveStatus}u";
        string thicknesses = Vector(axis => axis.Name + "Mm");
        return $$"""
            uniform highp sampler2D {{name}}Table;   // rgb: linear light, a: difference; linear filter, clamp to edge
            uniform highp usampler2D {{name}}Status; // nearest filter, clamp to edge
            // A prediction: show its cautions with it. Outside the table: black, difference -1, and a status for that.
            vec4 {{name}}({{arguments}}, out uint status) {
                const highp {{type}} low = {{Vector(axis => GpuAxis.Literal(axis.Range.MinMm))}};
                const highp {{type}} high = {{Vector(axis => GpuAxis.Literal(axis.Range.MaxMm))}};
                const highp {{type}} size = {{Vector(axis => GpuAxis.Literal(axis.Size))}};
                bool inside = {{inside}};
                highp {{type}} x = (({{thicknesses}} - low) / (high - low) * (size - 1.0) + 0.5) / size;
                status = inside ? textureLod({{name}}Status, {{at}}, 0.0).r : {{otherwise}};
                return inside ? textureLod({{name}}Table, {{at}}, 0.0) : vec4(0.0, 0.0, 0.0, -1.0);
            }

            """.Replace("\r\n", "\n");
    }

    public static string Describe(GpuTable table)
    {
        IReadOnlyList<GpuAxis> axes = table.Axes;
        ThicknessRequirement first = table.Requirements[0];
        StringBuilder text = new();
        void Line(string line) => text.Append(line).Append('\n');
        Line($"CeramicOptics: table for shaders, zone {first.ZoneName}");
        Line($"texels: {Guard.Text(table.Width)} x {Guard.Text(table.Height)}, four {(table.IsHalf ? 16 : 32)}-bit "
            + "floating-point numbers each, little-endian, row by row");
        Line("channels: red, green, blue in linear light (primaries and white of sRGB, not clipped), difference");
        Line("sampling: linear filter, clamp to edge, no smaller levels; status without filter");
        foreach (GpuAxis axis in axes)
        {
            Line($"{axis.Name}: {Guard.Text(axis.Range.MinMm)} to {Guard.Text(axis.Range.MaxMm)} mm at the centres of "
                + $"the first and the last of {Guard.Text(axis.Size)} texels");
        }

        Line($"difference: {first.Criterion.Formula}, limit {Guard.Text(first.Criterion.Limit)} "
            + $"({first.Criterion.Name})");
        Line($"departure from the response: colour at most {Number(table.ColorError)} in L*a*b*, difference at most "
            + $"{Number(table.DifferenceError)}, status of a point at most {Number(table.StatusErrorMm)} mm away");
        Line($"error bound of the response itself: {Number(table.ResponseErrorBound)}");
        byte[] statuses = [.. table.Statuses.ToArray(), table.BelowStatus, table.AboveStatus, table.UnknownStatus];
        foreach (byte status in statuses.Distinct().OrderBy(status => status))
        {
            Line($"status {Guard.Text(status)}: {(PointStatus)status}");
        }

        if (axes.Count == 1)
        {
            Line($"wall: {first}");
        }

        foreach (Caution caution in table.Cautions)
        {
            Line($"! {caution}");
        }

        return text.ToString();
    }

    // Errors are shown rounded up, to two digits.
    private static string Number(double error)
    {
        double step = Math.Pow(10, Math.Floor(Math.Log10(Math.Max(error, 1e-12))) - 1);
        return (Math.Ceiling(error / step) * step).ToString("0.##########", CultureInfo.InvariantCulture);
    }
}
