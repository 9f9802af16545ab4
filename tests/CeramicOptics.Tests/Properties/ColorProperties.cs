using FsCheck.Xunit;

namespace CeramicOptics.Tests.Properties;

/// <summary>Identities of colour spaces and difference formulas; 1,000 random cases each.</summary>
[Properties(MaxTest = Cases.OfKernels, Arbitrary = [typeof(Generators)])]
public class ColorProperties
{
    [Property]
    public void Lab_and_xyz_are_inverse(ColorInput color)
    {
        Xyz white = Colorimeter.D65TwoDegree.White;
        Lab back = Lab.FromXyz(color.Lab.ToXyz(white), white);
        Assert.Equal(0, ColorDifference.Cie76(color.Lab, back), 1e-11);
        Lab polar = Lab.FromLch(color.Lab.L, color.Lab.Chroma, color.Lab.HueDegrees);
        Assert.Equal(0, ColorDifference.Cie76(color.Lab, polar), 1e-11);
    }

    [Property]
    public void Differences_are_symmetric_and_zero_for_equal_colours(ColorInput one, ColorInput other)
    {
        Assert.Equal(0, ColorDifference.Ciede2000(one.Lab, one.Lab));
        Assert.Equal(
            ColorDifference.Ciede2000(one.Lab, other.Lab), ColorDifference.Ciede2000(other.Lab, one.Lab), 1e-9);
        Assert.Equal(ColorDifference.Cie76(one.Lab, other.Lab), ColorDifference.Cie76(other.Lab, one.Lab), 1e-12);
    }

    [Property(MaxTest = Cases.Some)]
    public void Smoothest_reflectance_has_its_colour_or_is_refused(ColorInput color)
    {
        Lab muted = new(color.L, color.A / 4, color.B / 3);
        foreach (
            WavelengthGrid grid in (WavelengthGrid[])[WavelengthGrid.Range(400, 700, 10),
            WavelengthGrid.Range(380, 780, 5)])
        {
            ReflectanceSpectrum spectrum;
            try
            {
                spectrum = Colorimeter.D65TwoDegree.SmoothestReflectance(muted, grid);
            }
            catch (ArgumentOutOfRangeException)
            {
                // Only very light or very dark colours of some chroma have no reflectance between 0 and 1: the nearer
                // to white or black, the less chroma is left.
                Assert.True(
                    (muted.Chroma > 0.12 * (100 - muted.L) && muted.L > 75) || (
                        muted.Chroma > 0.2 * muted.L && muted.L < 15), muted.ToString());
                continue;
            }

            Assert.Equal(0, ColorDifference.Cie76(muted, Colorimeter.D65TwoDegree.ToLab(spectrum)), 1e-6);
        }
    }
}
