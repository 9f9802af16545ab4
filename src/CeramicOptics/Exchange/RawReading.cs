namespace CeramicOptics.Exchange;

/// <summary>A reading as it stands in a file: any order of wavelengths, any scale.</summary>
/// <param name="Name">Name of the reading; replicates share it.</param>
/// <param name="Nm">Wavelengths, nm; readings of one table may share the array.</param>
/// <param name="Values">One value for each wavelength.</param>
/// <param name="Lines">The line of each value, or the one line of all.</param>
internal sealed record RawReading(string Name, double[] Nm, double[] Values, int[] Lines)
{
    public int LineOf(int value) => Lines[Math.Min(value, Lines.Length - 1)];
}
