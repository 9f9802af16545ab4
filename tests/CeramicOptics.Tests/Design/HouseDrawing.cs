using System.Text;

namespace CeramicOptics.Tests.Design;

/// <summary>
/// Draws the house as a square: folders from the top down, and in each row a dot for every folder that it uses. What
/// stands above it in the list is left of the diagonal.
/// </summary>
internal static class HouseDrawing
{
    private const int Cell = 20, Left = 190, Top = 150;

    /// <summary>A drawing in SVG.</summary>
    /// <param name="folders">Folders from the top of the list down.</param>
    /// <param name="house">What they use.</param>
    public static string Svg(IReadOnlyList<string> folders, House house)
    {
        int side = Cell * folders.Count;
        StringBuilder svg = new();
        void Line(string text) => svg.Append(text).Append('\n');
        Line($"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Left + side + 20} {Top + side + 50}\" "
            + $"width=\"{Left + side + 20}\" height=\"{Top + side + 50}\" font-family=\"sans-serif\" "
                + $"font-size=\"13\">");
        Line("  <title>The folders of the library and what each uses</title>");
        Line("  <rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>");
        for (int i = 0; i < folders.Count; i++)
        {
            string name = folders[i].Split('/')[^1];
            bool isFloor = name == folders[i];
            int at = (Cell * i) + (Cell / 2), last = i;
            string weight = isFloor ? " font-weight=\"bold\"" : "";
            if (isFloor)
            {
                while (last + 1 < folders.Count && House.FloorOf(folders[last + 1]) == name)
                {
                    last++;
                }

                int size = Cell * (last - i + 1);
                Line($"  <rect x=\"{Left}\" y=\"{Top + (Cell * i)}\" width=\"{side}\" height=\"{size}\" "
                    + $"fill=\"#f4f1ea\" stroke=\"#ffffff\" stroke-width=\"2\"/>");
                Line($"  <rect x=\"{Left + (Cell * i)}\" y=\"{Top + (Cell * i)}\" width=\"{size}\" "
                    + $"height=\"{size}\" fill=\"#d9d2c0\"/>");
            }

            Line($"  <text x=\"{(isFloor ? 12 : 28)}\" y=\"{Top + at + 4}\"{weight}>{name}</text>");
            Line($"  <text transform=\"translate({Left + at + 4} {Top - 8}) rotate(-90)\"{weight}>{name}</text>");
        }

        for (int row = 0; row < folders.Count; row++)
        {
            for (int column = 0; column < folders.Count; column++)
            {
                if (house.UsesOf(folders[row]).Contains(folders[column]))
                {
                    Line($"  <circle cx=\"{Left + (Cell * column) + (Cell / 2)}\" "
                        + $"cy=\"{Top + (Cell * row) + (Cell / 2)}\" r=\"4.5\" fill=\"#17324d\"/>");
                }
            }
        }

        Line($"  <text x=\"{Left}\" y=\"{Top + side + 28}\">The row uses the column; "
            + $"left of the diagonal is up the list. Dark: the folders of one floor.</text>");
        Line("</svg>");
        return svg.ToString();
    }
}
