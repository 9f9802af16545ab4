namespace CeramicOptics.Characterization.Photographs;

/// <summary>Which terms of red, green and blue are combined linearly into X, Y and Z.</summary>
/// <remarks>
/// Polynomials: Cheung, Westland, Connah, Ripamonti 2004, Color. Technol. 120:19-25, and Westland, Ripamonti 2004,
/// Computational Colour Science Using MATLAB, table 8.2. Root polynomials: Finlayson, Mackiewicz, Hurlbert 2015, IEEE
/// Trans. Image Process. 24:1460-1470. The linear method and the root polynomials follow the exposure: twice the light
/// gives twice X, Y and Z. Polynomials do not, so that the hue of a tooth changes if it is lit slightly differently
/// from the chart.
/// </remarks>
public enum CorrectionMethod
{
    /// <summary>Red, green, blue: a 3 x 3 matrix, the same as the root polynomial of degree 1.</summary>
    Linear,

    /// <summary>5 terms: the linear ones, RGB and a constant.</summary>
    Polynomial5,

    /// <summary>7 terms: the linear ones, RG, RB, GB and a constant.</summary>
    Polynomial7,

    /// <summary>8 terms: the 7 and RGB.</summary>
    Polynomial8,

    /// <summary>10 terms: the 7 and the squares.</summary>
    Polynomial10,

    /// <summary>11 terms: the 10 and RGB.</summary>
    Polynomial11,

    /// <summary>14 terms: the 11 and the cubes.</summary>
    Polynomial14,

    /// <summary>
    /// 16 terms: the 14 less the constant, and three of the six products of a square and another channel.
    /// </summary>
    Polynomial16,

    /// <summary>17 terms: the 16 and a constant.</summary>
    Polynomial17,

    /// <summary>19 terms: all products of one to three channels.</summary>
    Polynomial19,

    /// <summary>20 terms: the 19 and a constant.</summary>
    Polynomial20,

    /// <summary>22 terms: the 19 and the three products of fourth degree that hold all channels.</summary>
    Polynomial22,

    /// <summary>6 terms: the linear ones and the square roots of RG, RB, GB.</summary>
    RootPolynomial2,

    /// <summary>13 terms: the 6 and the cube roots of products of three channels.</summary>
    RootPolynomial3,

    /// <summary>22 terms: the 13 and the fourth roots of products of four channels.</summary>
    RootPolynomial4,
}
