using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Characterization;

/// <summary>What surrounds the disc of a reading: indices of film and body below it, light and detector.</summary>
/// <remarks>A transmittance is what reaches a black body in the air below.</remarks>
internal readonly record struct DiscOptics(double FilmIndex, double BodyIndex, TransportBeam Beam)
{
    public static DiscOptics Of(DiscReading reading, double index, double wavelengthNm, int wavelength)
    {
        if (reading.Backing is not { } backing)
        {
            return new DiscOptics(index, 1, new TransportBeam(1, 0, null));
        }

        double film = backing.Coupling?.RefractiveIndex.At(wavelengthNm) ?? index;
        return new DiscOptics(
            film, backing.Substrate.BodyUnder(film, wavelength).Index, TransportBeam.Of(reading.Geometry, index));
    }
}
