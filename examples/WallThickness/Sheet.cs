using System.Globalization;
using System.Numerics;
using SkiaSharp;

namespace CeramicOptics.Examples.WallThickness;

/// <summary>A white picture on which crowns, scales and text are drawn.</summary>
/// <remarks>
/// Faces have the plain colour of their value: no light and shade, which would change what a colour means. The shape
/// shows by outlines.
/// </remarks>
internal sealed class Sheet : IDisposable
{
    private readonly SKBitmap _bitmap;
    private readonly SKCanvas _canvas;
    private readonly SKTypeface _typeface = SKTypeface.FromFile(
        Path.Combine(AppContext.BaseDirectory, "assets", "DejaVuSans.ttf"));

    private readonly SKPaint _ink = new() { Color = SKColors.Black, IsAntialias = true };

    public Sheet(int width, int height)
    {
        (_bitmap, Width) = (new SKBitmap(width, height), width);
        _canvas = new SKCanvas(_bitmap);
        _canvas.Clear(SKColors.White);
    }

    public int Width { get; }

    public static string Number(double value) => value.ToString("0.0##", CultureInfo.InvariantCulture);

    public void Text(string text, float x, float y, float size = 15, SKTextAlign align = SKTextAlign.Left)
    {
        using SKFont font = new(_typeface, size);
        _canvas.DrawText(text, x, y, align, font, _ink);
    }

    /// <summary>Text in as many lines as its width needs.</summary>
    /// <returns>Where the next line would stand.</returns>
    public float Wrapped(string text, float x, float y, float width, float size = 15)
    {
        using SKFont font = new(_typeface, size);
        string line = "";
        foreach (string word in text.Split(' '))
        {
            string longer = line.Length == 0 ? word : $"{line} {word}";
            if (line.Length > 0 && font.MeasureText(longer) > width)
            {
                _canvas.DrawText(line, x, y, font, _ink);
                (y, longer) = (y + (size * 1.35f), word);
            }

            line = longer;
        }

        _canvas.DrawText(line, x, y, font, _ink);
        return y + (size * 1.35f);
    }

    public void Box(float x, float y, float width, float height, SKColor color)
    {
        using SKPaint fill = new() { Color = color };
        _canvas.DrawRect(x, y, width, height, fill);
        Line(new SKPoint(x, y), new SKPoint(x + width, y));
        Line(new SKPoint(x, y + height), new SKPoint(x + width, y + height));
        Line(new SKPoint(x, y), new SKPoint(x, y + height));
        Line(new SKPoint(x + width, y), new SKPoint(x + width, y + height));
    }

    public void Line(SKPoint from, SKPoint to, float width = 1, bool isDashed = false)
    {
        using SKPath path = new();
        path.MoveTo(from);
        path.LineTo(to);
        Stroke(path, width, isDashed, hasHalo: false);
    }

    /// <summary>A bar with the colours of a scale and its ticks; the ends are ends of the scale.</summary>
    /// <returns>Height of a value in the picture.</returns>
    public Func<double, float> Scale(ColorScale scale, float x, float y, float height, float width = 30)
    {
        float At(double value) => (float)(y + height - (height * (value - scale.Low) / (scale.High - scale.Low)));
        for (int i = 0; i < height; i++)
        {
            using SKPaint paint = new()
            {
                Color = scale.ColorOf(scale.High - ((scale.High - scale.Low) * (i + 0.5) / height)),
            };
            _canvas.DrawRect(x, y + i, width, 1, paint);
        }

        foreach (double tick in scale.Ticks)
        {
            Line(new SKPoint(x + width, At(tick)), new SKPoint(x + width + 6, At(tick)));
            bool isCut = scale.IsCut && tick > scale.High - (scale.Step / 2);
            Text(Number(tick) + (isCut ? " or more" : ""), x + width + 10, At(tick) + 5, 14);
        }

        Line(new SKPoint(x + width, y), new SKPoint(x + width, y + height));
        return At;
    }

    /// <summary>A mesh from one side, each face in the colour of its value, with its outline.</summary>
    public void Mesh(Mesh mesh, IReadOnlyList<double> values, ColorScale scale, Placement place)
    {
        // Far faces first; those that look away are not seen.
        foreach ((int a, int b, int c) in mesh.Triangles.Where(t => place.Shows(mesh, t)).OrderBy(t =>
            place.Depth(mesh.Vertices[t.A]) + place.Depth(mesh.Vertices[t.B]) + place.Depth(mesh.Vertices[t.C])))
        {
            using SKPath path = new();
            path.AddPoly([place.At(mesh.Vertices[a]), place.At(mesh.Vertices[b]), place.At(mesh.Vertices[c])]);
            using SKPaint paint = new() { Color = scale.ColorOf((values[a] + values[b] + values[c]) / 3) };
            _canvas.DrawPath(path, paint);
        }

        // An edge between a face that shows and one that does not; points that coincide are one.
        Dictionary<(Vector3, Vector3), int> sides = [];
        foreach ((int a, int b, int c) in mesh.Triangles.Where(t => place.Shows(mesh, t)))
        {
            foreach ((int i, int k) in new[] { (a, b), (b, c), (c, a) })
            {
                (Vector3 from, Vector3 to) = (Rounded(mesh.Vertices[i]), Rounded(mesh.Vertices[k]));
                (Vector3, Vector3) edge = i < k ? (from, to) : (to, from);
                (Vector3, Vector3) back = (edge.Item2, edge.Item1);
                edge = sides.ContainsKey(back) ? back : edge;
                sides[edge] = sides.GetValueOrDefault(edge) + 1;
            }
        }

        foreach (((Vector3 from, Vector3 to), int count) in sides)
        {
            if (count == 1 && from != to)
            {
                Line(place.At(from), place.At(to), 1.5f);
            }
        }

        static Vector3 Rounded(Vector3 v) => new(MathF.Round(v.X, 3), MathF.Round(v.Y, 3), MathF.Round(v.Z, 3));
    }

    /// <summary>The lines on a mesh where a value passes zero; faces without a value have none.</summary>
    public void Contour(
        Mesh mesh, Func<int, double> value, Placement place, float width, bool isDashed = false, bool hasHalo = true)
    {
        // Each face that is crossed joins two of its edges.
        Dictionary<(int, int), List<(int, int)>> joined = [];
        foreach ((int a, int b, int c) in mesh.Triangles.Where(t => place.Shows(mesh, t)))
        {
            (int, int)[] crossed =
            [
                .. new[] { (a, b), (b, c), (c, a) }.Select(edge => edge.Item1 < edge.Item2 ? edge
                    : (edge.Item2, edge.Item1)).Where(edge => Passes(value(edge.Item1), value(edge.Item2))),
            ];
            if (crossed.Length == 2)
            {
                foreach ((int from, int to) in new[] { (0, 1), (1, 0) })
                {
                    joined.TryAdd(crossed[from], []);
                    joined[crossed[from]].Add(crossed[to]);
                }
            }
        }

        using SKPath path = new();
        while (joined.Count > 0)
        {
            // From an end where there is one, else all the way round.
            (int, int) first = joined.FirstOrDefault(edge => edge.Value.Count == 1, joined.First()).Key, at = first;
            bool isRound = joined[first].Count == 2;
            path.MoveTo(Crossing(first));
            while (joined.Remove(at, out List<(int, int)>? beside))
            {
                int on = beside.FindIndex(joined.ContainsKey);
                if (on < 0)
                {
                    break;
                }

                at = beside[on];
                path.LineTo(Crossing(at));
            }

            if (isRound)
            {
                path.Close();
            }
        }

        Stroke(path, width, isDashed, hasHalo);

        static bool Passes(double one, double two) => (one < 0) != (two < 0) && !double.IsNaN(one + two);

        SKPoint Crossing((int From, int To) edge)
        {
            (double one, double two) = (value(edge.From), value(edge.To));
            return place.At(
                Vector3.Lerp(mesh.Vertices[edge.From], mesh.Vertices[edge.To], (float)(one / (one - two))));
        }
    }

    public void Save(string path)
    {
        _canvas.Flush();
        using FileStream file = File.Create(path);
        _bitmap.Encode(file, SKEncodedImageFormat.Png, 100);
    }

    public void Dispose()
    {
        _canvas.Dispose();
        _bitmap.Dispose();
        _ink.Dispose();
        _typeface.Dispose();
    }

    private void Stroke(SKPath path, float width, bool isDashed, bool hasHalo)
    {
        using SKPathEffect? dashes = isDashed ? SKPathEffect.CreateDash([8, 5], 0) : null;
        using SKPaint halo = new()
        {
            Color = SKColors.White, StrokeWidth = width + 2, IsAntialias = true, Style = SKPaintStyle.Stroke,
        };
        using SKPaint pen = new()
        {
            Color = SKColors.Black, StrokeWidth = width, IsAntialias = true, Style = SKPaintStyle.Stroke,
            PathEffect = dashes,
        };
        if (hasHalo)
        {
            _canvas.DrawPath(path, halo);
        }

        _canvas.DrawPath(path, pen);
    }
}
