using System.Globalization;
using System.Text.Json;
using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Delivered;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>JSON form of a <see cref="DeliveredRecord"/>, version 1.</summary>
internal static class DeliveredJson
{
    private const string Format = "ceramic-optics-delivered-record";
    private const int Version = 1;
    private const string DateFormat = "yyyy-MM-dd";

    private static readonly Observer[] Observers =
    [
        Observer.Cie1931TwoDegree, Observer.Cie1964TenDegree, Observer.Cie2015TwoDegree, Observer.Cie2015TenDegree,
    ];

    public static DeliveredRecord Read(Stream stream, string source) => JsonFile.Read(
        stream, source, Format, Version,
        root =>
        {
            root.ObjectWith("$schema", "format", "version", "name", "pieces");
            JsonPlace name = root["name"];
            DeliveredRecord record = name.Convert(() => DeliveredRecord.Start(name.Text()));
            List<DeliveredPiece> pieces = [];
            foreach (JsonPlace at in root["pieces"].Items())
            {
                pieces.Add(ReadPiece(at));
                at.Convert(() => record.Append(pieces.Skip(Math.Max(0, pieces.Count - 2))));
            }

            return root["pieces"].Convert(() => record.Append(pieces));
        });

    public static void Write(DeliveredRecord record, Stream stream) => JsonFile.Write(stream, Format, Version, writer =>
    {
        writer.WriteString("name", record.Name);
        JsonFile.List(writer, "pieces", record.Pieces, piece => WritePiece(writer, piece));
    });

    /// <summary>True when two pieces would be written alike.</summary>
    public static bool AreSame(DeliveredPiece one, DeliveredPiece other) =>
        Bytes(one).AsSpan().SequenceEqual(Bytes(other));

    private static byte[] Bytes(DeliveredPiece piece)
    {
        using MemoryStream stream = new();
        Write(DeliveredRecord.Start("piece").Append(piece), stream);
        return stream.ToArray();
    }

    private static DeliveredPiece ReadPiece(JsonPlace at)
    {
        at.ObjectWith(
            "name", "date", "ceramic", "batch", "cement", "furnace", "wallMm", "stump", "predicted", "read");
        JsonPlace day = at["date"];
        DateTime date = DateTime.TryParseExact(
            day.Text(), DateFormat, CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTime parsed)
            ? parsed
            : throw day.Fault($"a date must have the form yyyy-mm-dd but is '{day.Text()}'.");
        ColorReading predicted = ReadColor(at["predicted"]), read = ReadColor(at["read"]);
        return at.Convert(() => new DeliveredPiece(
            at["name"].Text(), date, at["ceramic"].Text(), at["batch"].Text(), at["wallMm"].Number(),
            at["stump"].Text(), predicted, read)
        {
            Cement = at.TryGet("cement")?.Text(),
            Furnace = at.TryGet("furnace")?.Text(),
        });
    }

    private static ColorReading ReadColor(JsonPlace at)
    {
        at.ObjectWith("illuminant", "observer", "geometry", "color", "wavelengths", "reflectance");
        JsonPlace illuminant = at["illuminant"], named = at["observer"], geometry = at["geometry"];
        Observer observer = Array.Find(Observers, known => known.Name == named.Text()) ?? throw named.Fault(
            $"observer '{named.Text()}' is unknown; allowed: {string.Join(", ", Observers.Select(o => o.Name))}.");
        Colorimeter under = Known(observer, illuminant.Convert(() => Illuminant.Named(illuminant.Text())));
        MeasurementGeometry how = geometry.Convert(() => GeometryNames.Geometry(geometry.Text()));
        if (at.TryGet("color") is JsonPlace color)
        {
            if (at.TryGet("reflectance") is JsonPlace both)
            {
                throw both.Fault("a colour and a spectrum are given; give one of them.");
            }

            double[] values = color.Numbers();
            return values.Length == 3
                ? color.Convert(() => ColorReading.FromColor(new Lab(values[0], values[1], values[2]), under, how))
                : throw color.Fault($"L*, a*, b* are needed but {Guard.Text(values.Length)} value(s) are given.");
        }

        JsonPlace spectrum = at["reflectance"];
        WavelengthGrid grid = at["wavelengths"].Grid();
        return spectrum.Convert(() => ColorReading.FromReflectance(
            new ReflectanceSpectrum(grid, spectrum.Numbers()), under, how));
    }

    // The library's own colorimeters where they are meant: their tables are made already.
    private static Colorimeter Known(Observer observer, Illuminant illuminant) =>
        Array.Find(
            (Colorimeter[])[Colorimeter.D65TwoDegree, Colorimeter.D65TenDegree, Colorimeter.ATwoDegree],
            known => known.Observer == observer && known.Illuminant == illuminant)
        ?? new Colorimeter(observer, illuminant);

    private static void WritePiece(Utf8JsonWriter writer, DeliveredPiece piece)
    {
        writer.WriteString("name", piece.Name);
        writer.WriteString("date", piece.Date.ToString(DateFormat, CultureInfo.InvariantCulture));
        writer.WriteString("ceramic", piece.Ceramic);
        writer.WriteString("batch", piece.Batch);
        if (piece.Cement is not null)
        {
            writer.WriteString("cement", piece.Cement);
        }

        if (piece.Furnace is not null)
        {
            writer.WriteString("furnace", piece.Furnace);
        }

        writer.WriteNumber("wallMm", piece.WallMm);
        writer.WriteString("stump", piece.Stump);
        WriteColor(writer, piece, "predicted", piece.Predicted);
        WriteColor(writer, piece, "read", piece.Read);
    }

    private static void WriteColor(Utf8JsonWriter writer, DeliveredPiece piece, string name, ColorReading reading)
    {
        Illuminant illuminant = reading.Under.Illuminant;
        if (!Illuminant.All.Contains(illuminant) || Array.IndexOf(Observers, reading.Under.Observer) < 0)
        {
            throw new ArgumentException(
                $"Piece '{piece.Name}' is under {reading.Under.Name}; a record names illuminants and observers of the "
                    + "CIE only.");
        }

        writer.WriteStartObject(name);
        writer.WriteString("illuminant", illuminant.Name);
        writer.WriteString("observer", reading.Under.Observer.Name);
        writer.WriteString("geometry", GeometryNames.Name(reading.Geometry));
        if (reading.Spectrum is { } spectrum)
        {
            JsonFile.Grid(writer, spectrum.Grid);
            JsonFile.Numbers(writer, "reflectance", spectrum.Values);
        }
        else
        {
            JsonFile.Numbers(writer, "color", [reading.Color.L, reading.Color.A, reading.Color.B]);
        }

        writer.WriteEndObject();
    }
}
