namespace CeramicOptics.Characterization.Photographs;

/// <summary>The terms of each method, every one a product of powers of the channels.</summary>
internal sealed class CorrectionTerms
{
    private const string Linear = "R G B", Pairs = " RG RB GB", Squares = " RR GG BB", Cubes = " RRR GGG BBB";
    private const string Mixed = " RRG GGB BBR", OtherMixed = " RRB GGR BBG", Fourth = " RRGB RGGB RGBB", One = " 1";
    private const string FourthRoots = " RRRG RRRB GGGR GGGB BBBR BBBG";

    private readonly (double Red, double Green, double Blue)[] _powers;

    // Letters are counted; a root polynomial takes the root of as many letters as the term has.
    private CorrectionTerms(string terms, bool roots) => _powers = Array.ConvertAll(terms.Split(' '), term =>
    {
        double Power(char letter) => term.Count(other => other == letter) / (roots ? (double)term.Length : 1);
        return (Power('R'), Power('G'), Power('B'));
    });

    /// <summary>All methods, in the order of the enumeration.</summary>
    public static IReadOnlyList<CorrectionMethod> Methods { get; } =
        Guard.Copy(Enumerable.Range(0, 1 + (int)CorrectionMethod.RootPolynomial4).Select(i => (CorrectionMethod)i));

    public int Count => _powers.Length;

    public static CorrectionTerms Of(CorrectionMethod method) => method switch
    {
        CorrectionMethod.Linear => new(Linear, false),
        CorrectionMethod.Polynomial5 => new(Linear + " RGB" + One, false),
        CorrectionMethod.Polynomial7 => new(Linear + Pairs + One, false),
        CorrectionMethod.Polynomial8 => new(Linear + Pairs + " RGB" + One, false),
        CorrectionMethod.Polynomial10 => new(Linear + Pairs + Squares + One, false),
        CorrectionMethod.Polynomial11 => new(Linear + Pairs + Squares + " RGB" + One, false),
        CorrectionMethod.Polynomial14 => new(Linear + Pairs + Squares + " RGB" + Cubes + One, false),
        CorrectionMethod.Polynomial16 => new(Linear + Pairs + Squares + " RGB" + Mixed + Cubes, false),
        CorrectionMethod.Polynomial17 => new(Linear + Pairs + Squares + " RGB" + Mixed + Cubes + One, false),
        CorrectionMethod.Polynomial19 => new(Linear + Pairs + Squares + " RGB" + Mixed + OtherMixed + Cubes, false),
        CorrectionMethod.Polynomial20 =>
            new(Linear + Pairs + Squares + " RGB" + Mixed + OtherMixed + Cubes + One, false),
        CorrectionMethod.Polynomial22 =>
            new(Linear + Pairs + Squares + " RGB" + Mixed + OtherMixed + Cubes + Fourth, false),
        CorrectionMethod.RootPolynomial2 => new(Linear + Pairs, true),
        CorrectionMethod.RootPolynomial3 => new(Linear + Pairs + Mixed + OtherMixed + " RGB", true),
        _ => new(Linear + Pairs + Mixed + OtherMixed + " RGB" + FourthRoots + Fourth, true),
    };

    public double[] At(CameraRgb linear)
    {
        (double r, double g, double b) = (linear.Red, linear.Green, linear.Blue);
        return Array.ConvertAll(
            _powers, power => Math.Pow(r, power.Red) * Math.Pow(g, power.Green) * Math.Pow(b, power.Blue));
    }

    /// <summary>Derivatives of the terms by one channel, which must be above 0.</summary>
    public double[] SlopesAt(CameraRgb linear, CameraChannel channel)
    {
        double[] slopes = At(linear);
        for (int i = 0; i < slopes.Length; i++)
        {
            slopes[i] *= new CameraRgb(_powers[i].Red, _powers[i].Green, _powers[i].Blue)[channel] / linear[channel];
        }

        return slopes;
    }
}
