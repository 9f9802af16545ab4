using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;
using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Decisions.Delivered;

/// <summary>
/// The quantities that deviations of delivered pieces depend on, their prior, and colours with their slopes.
/// </summary>
/// <remarks>Scales are handled as logarithms. Immutable.</remarks>
internal sealed class LearningModel
{
    private const double WallMargin = 0.25;

    private readonly CorrectionOptions _options;
    private readonly Dictionary<QuantityKey, int> _positions = [];

    public LearningModel(
        IReadOnlyList<DeliveredPiece> pieces, Func<DeliveredPiece, Restoration> planOf, CorrectionOptions options)
    {
        (_options, Pieces) = (options, pieces);
        Cases = [.. pieces.Select(piece => PieceCase.Of(
            piece,
            planOf(piece) ?? throw new ArgumentException($"No restoration is given for piece '{piece.Name}'.")))];
        List<double> deviations = [];
        foreach (PieceCase item in Cases)
        {
            for (int k = 0; k < item.Keys.Count; k++)
            {
                // Without cement there is no film to correct.
                if (item.Keys[k].Subject.Length > 0 && !_positions.ContainsKey(item.Keys[k]))
                {
                    _positions.Add(item.Keys[k], deviations.Count);
                    deviations.Add(PriorDeviation(item, k));
                }
            }
        }

        Keys = [.. _positions.OrderBy(pair => pair.Value).Select(pair => pair.Key)];
        Prior = Matrix<double>.Build.DenseOfDiagonalArray([.. deviations.Select(sd => sd * sd)]);
        foreach (PieceCase first in Cases.GroupBy(item => item.Ceramic.Name).Select(group => group.First()))
        {
            RequireOneCeramic(first);
            int k = _positions[first.Key(CorrectedKind.AbsorptionScale)],
                s = _positions[first.Key(CorrectedKind.ScatteringScale)];
            Prior[k, s] = Prior[s, k] = ScalePrior(first.Ceramic).Covariance;
        }
    }

    public IReadOnlyList<DeliveredPiece> Pieces { get; }

    public IReadOnlyList<PieceCase> Cases { get; }

    public IReadOnlyList<QuantityKey> Keys { get; }

    public int Count => Keys.Count;

    /// <summary>Covariance of the quantities before any piece.</summary>
    public Matrix<double> Prior { get; }

    /// <summary>Variance of ln K, and of ln S, of a batch that no piece is of.</summary>
    public double BatchVariance => _options.BatchScale * _options.BatchScale;

    /// <summary>Value of a quantity; 0 for one that no piece concerns.</summary>
    public double ValueOf(QuantityKey key, Vector<double> values) =>
        _positions.TryGetValue(key, out int at) ? values[at] : 0;

    /// <summary>Position of a quantity; null for one that no piece concerns.</summary>
    public int? PositionOf(QuantityKey key) => _positions.TryGetValue(key, out int at) ? at : null;

    /// <summary>Colours of all pieces with the quantities at these values.</summary>
    public PieceColor[] ColorsAt(Vector<double> values, CancellationToken cancellation)
    {
        PieceColor[] colors = new PieceColor[Cases.Count];
        foreach (IGrouping<(Restoration Kind, QuantityKey Batch), int> group in Enumerable.Range(0, Cases.Count)
            .GroupBy(i => (Cases[i].Kind, Cases[i].Key(CorrectedKind.BatchAbsorptionScale))))
        {
            DeliveredWall wall = WallOf([.. group.Select(i => Cases[i])], values, cancellation);
            foreach (int i in group)
            {
                colors[i] = ColorOf(Cases[i], wall, values);
            }
        }

        return colors;
    }

    /// <summary>Colour of one case, recorded or not.</summary>
    public PieceColor ColorAt(PieceCase item, Vector<double> values, CancellationToken cancellation) =>
        ColorOf(item, WallOf([item], values, cancellation), values);

    /// <summary>Thickness of a wall with what is known of all walls, mm; not always a possible one.</summary>
    public double WallMm(PieceCase item, Vector<double> values) =>
        item.Zone.AvailableMm + ValueOf(item.Key(CorrectedKind.WallThickness), values);

    /// <summary>Thickness of the film with what is known of films of its cement, mm; 0 without cement.</summary>
    public double FilmMm(PieceCase item, Vector<double> values) => item.Plan.Cement is { } cement
        ? cement.ThicknessMm + ValueOf(item.Key(CorrectedKind.CementFilm), values)
        : 0;

    /// <summary>Refuses a wall or film that cannot be as thin as the quantities say.</summary>
    /// <exception cref="ArgumentException">
    /// The wall would be thinner than <see cref="PieceCase.Walls"/>, or the film than none.
    /// </exception>
    public void RequirePossible(PieceCase item, Vector<double> values, string name)
    {
        double filmMm = FilmMm(item, values);
        if (filmMm < 0)
        {
            throw new ArgumentException(
                $"A film of {Guard.Text(item.Plan.Cement!.ThicknessMm)} mm would be {Guard.Text(Math.Round(filmMm, 3))}"
                    + " mm thick with the correction of films; the correction does not hold for so thin a film.", name);
        }

        double wallMm = WallMm(item, values);
        if (!item.Walls.Contains(wallMm))
        {
            throw new ArgumentException(
                $"A wall of {Guard.Text(item.Zone.AvailableMm)} mm would be {Guard.Text(Math.Round(wallMm, 3))} mm "
                    + "thick with the correction of walls; the correction does not apply to so thin a wall.", name);
        }
    }

    /// <summary>The quantities at which a colour is computed: those of a possible wall and film.</summary>
    public Vector<double> Possible(PieceCase item, Vector<double> values)
    {
        Vector<double> possible = values.Clone();
        if (PositionOf(item.Key(CorrectedKind.WallThickness)) is int wall)
        {
            possible[wall] = PossibleMm(item, values) - item.Zone.AvailableMm;
        }

        if (PositionOf(item.Key(CorrectedKind.CementFilm)) is int film && item.Plan.Cement is { } cement)
        {
            possible[film] = Math.Max(FilmMm(item, values), 0) - cement.ThicknessMm;
        }

        return possible;
    }

    /// <summary>Three rows: slopes of L*, a*, b* by all quantities.</summary>
    public Matrix<double> Jacobian(PieceCase item, PieceColor color)
    {
        Matrix<double> rows = Matrix<double>.Build.Dense(3, Count);
        ColorDeviation[] slopes = PieceCase.Slopes(color);
        for (int k = 0; k < slopes.Length; k++)
        {
            if (PositionOf(item.Keys[k]) is int at)
            {
                rows.SetColumn(at, Vector(slopes[k]));
            }
        }

        return rows;
    }

    /// <summary>
    /// Covariance of a reading beside the quantities: what thickness, film and stump do not have in common, every
    /// other input of the uncertainty of a prediction, the model's own error, the reading.
    /// </summary>
    /// <remarks>
    /// Indices, and K and S of other layers than the core, err alike in many pieces but are not corrected; they count
    /// as scatter.
    /// </remarks>
    public Matrix<double> Scatter(PieceCase item, PieceColor color)
    {
        InputUncertainty inputs = item.Plan.Uncertainty;
        OwnError model = item.Plan.OwnErrorAt(item.Zone.AvailableMm);
        Matrix<double> sum = Matrix<double>.Build.DenseOfDiagonalArray(
            [.. new[] { model.L, model.A, model.B }.Select(u => (_options.ReadingColor * _options.ReadingColor)
                + (u * u))]);
        sum[0, 2] = sum[2, 0] = model.Correlation * model.L * model.B;
        double own = 1 - _options.CommonShare;
        Add(color.Wall, inputs.CoreMm);
        Add(color.Film, item.Plan.Cement is null ? 0 : inputs.CementMm);
        Add(color.Stump, inputs.StumpReflectance);
        foreach (ColorDeviation move in color.Others)
        {
            sum += Vector(move).OuterProduct(Vector(move));
        }

        return sum;

        void Add(ColorDeviation slope, double deviation) =>
            sum += Vector(slope).OuterProduct(Vector(slope)) * (own * deviation * deviation);
    }

    /// <summary>Variance of a case's colour from quantities that no piece concerns, such as a new batch.</summary>
    public Matrix<double> Unlearned(PieceCase item, PieceColor color)
    {
        Matrix<double> sum = Matrix<double>.Build.Dense(3, 3);
        ColorDeviation[] slopes = PieceCase.Slopes(color);
        for (int k = 0; k < slopes.Length; k++)
        {
            if (PositionOf(item.Keys[k]) is null && item.Keys[k].Subject.Length > 0)
            {
                double deviation = PriorDeviation(item, k);
                sum += Vector(slopes[k]).OuterProduct(Vector(slopes[k])) * (deviation * deviation);
            }
        }

        return sum;
    }

    public static Vector<double> Vector(ColorDeviation shift) =>
        Vector<double>.Build.DenseOfArray([shift.L, shift.A, shift.B]);

    public static ColorDeviation Shift(Lab from, Lab to) => new(to.L - from.L, to.A - from.A, to.B - from.B);

    private PieceColor ColorOf(PieceCase item, DeliveredWall wall, Vector<double> values)
    {
        double Of(CorrectedKind kind) => ValueOf(item.Key(kind), values);
        PieceColor color = wall.At(
            item.Zone.Stump, Of(CorrectedKind.StumpReflectance), PossibleMm(item, values));
        Lab lab = color.Color;
        return color with
        {
            Color = new Lab(
                lab.L + Of(CorrectedKind.FurnaceL), lab.A + Of(CorrectedKind.FurnaceA),
                lab.B + Of(CorrectedKind.FurnaceB)),
        };
    }

    // A step of the iteration may ask for impossible walls; a result that ends there reports it.
    private double PossibleMm(PieceCase item, Vector<double> values) =>
        Math.Min(Math.Max(WallMm(item, values), item.Walls.MinMm), item.Walls.MaxMm);

    // One wall for cases that differ in stump and thickness alone.
    private DeliveredWall WallOf(PieceCase[] alike, Vector<double> values, CancellationToken cancellation)
    {
        PieceCase first = alike[0];
        double Of(CorrectedKind kind) => ValueOf(first.Key(kind), values);
        double low = alike.Min(
            item => Math.Min((1 - WallMargin) * item.Zone.AvailableMm, PossibleMm(item, values)));
        double high = alike.Max(
            item => Math.Max((1 + WallMargin) * item.Zone.AvailableMm, PossibleMm(item, values)));
        return new DeliveredWall(
            first.Plan, Of(CorrectedKind.AbsorptionScale) + Of(CorrectedKind.BatchAbsorptionScale),
            Of(CorrectedKind.ScatteringScale) + Of(CorrectedKind.BatchScatteringScale), Of(CorrectedKind.CementFilm),
            new ThicknessRange(low, Math.Min(high, Layer.MaximumThicknessMm)), cancellation);
    }

    private double PriorDeviation(PieceCase item, int key)
    {
        InputUncertainty inputs = item.Plan.Uncertainty;
        double common = Math.Sqrt(_options.CommonShare);
        return item.Keys[key].Kind switch
        {
            CorrectedKind.WallThickness => common * inputs.CoreMm,
            CorrectedKind.CementFilm => common * inputs.CementMm,
            CorrectedKind.StumpReflectance => common * inputs.StumpReflectance,
            CorrectedKind.AbsorptionScale => ScalePrior(item.Ceramic).Absorption,
            CorrectedKind.ScatteringScale => ScalePrior(item.Ceramic).Scattering,
            CorrectedKind.BatchAbsorptionScale or CorrectedKind.BatchScatteringScale => _options.BatchScale,
            _ => _options.FurnaceColor,
        };
    }

    // The scale of the disc's thickness moves K and S alike; reading noise moves their sums over wavelengths, and a
    // cause common to all wavelengths moves them in its own measure.
    private (double Absorption, double Scattering, double Covariance) ScalePrior(Material material)
    {
        if (material.Uncertainty is not { } stated)
        {
            return (_options.UnstatedScale, _options.UnstatedScale, 0);
        }

        double k = 0, s = 0, both = 0, sumK = 0, sumS = 0, commonK = 0, commonS = 0;
        for (int i = 0; i < material.Grid.Count; i++)
        {
            double ofK = stated.AbsorptionPerMm[i], ofS = stated.ScatteringPerMm[i];
            (k, s, both) = (k + (ofK * ofK), s + (ofS * ofS), both + (stated.Correlation[i] * ofK * ofS));
            (sumK, sumS) = (sumK + material.Absorption[i], sumS + material.Scattering[i]);
            commonK += stated.CommonAbsorptionPerMm[i];
            commonS += stated.CommonScatteringPerMm[i];
        }

        (k, s, both) = (k + (commonK * commonK), s + (commonS * commonS), both + (commonK * commonS));

        (sumK, sumS) = (Math.Max(sumK, 1e-9), Math.Max(sumS, 1e-9));
        double scale = stated.RelativeScale * stated.RelativeScale;
        double ofAbsorption = Math.Min(1, Math.Sqrt(scale + (k / sumK / sumK)));
        double ofScattering = Math.Min(1, Math.Sqrt(scale + (s / sumS / sumS)));
        double largest = 0.999 * ofAbsorption * ofScattering;
        return (ofAbsorption, ofScattering, Math.Min(largest, Math.Max(-largest, scale + (both / sumK / sumS))));
    }

    /// <summary>Refuses a material of the name of one that was corrected, but with other constants.</summary>
    /// <exception cref="ArgumentException">The constants are others.</exception>
    public void RequireSame(Material given, string name)
    {
        if (Cases.Any(item => AreOthers(given, item.Ceramic)))
        {
            throw new ArgumentException(
                $"'{given.Name}' has other K and S than those that were corrected; give the constants as given to the "
                    + "correction.", name);
        }
    }

    private static bool AreOthers(Material one, Material other) => one.Name == other.Name && one != other
        && !(one.Grid.Equals(other.Grid)
        && one.Absorption.Values.SequenceEqual(other.Absorption.Values)
        && one.Scattering.Values.SequenceEqual(other.Scattering.Values));

    private void RequireOneCeramic(PieceCase first)
    {
        for (int i = 0; i < Cases.Count; i++)
        {
            if (AreOthers(Cases[i].Ceramic, first.Ceramic))
            {
                Material other = Cases[i].Ceramic;
                throw new ArgumentException(
                    $"The restoration of piece '{Pieces[i].Name}' has other K and S for '{other.Name}' than those of "
                        + "the pieces before it; give the constants that are to be corrected for all.");
            }
        }
    }
}
