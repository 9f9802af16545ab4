namespace CeramicOptics.Characterization.Photographs;

/// <summary>One number for each channel of a camera, such as the mean of a patch, as a share of full scale.</summary>
/// <param name="Red">Red channel; 0 to 1 for a mean.</param>
/// <param name="Green">Green channel; 0 to 1 for a mean.</param>
/// <param name="Blue">Blue channel; 0 to 1 for a mean.</param>
/// <remarks>
/// Values of 8 bits are divided by 255; raw values less their black level by the white level less the black level.
/// Whether the values are linear or display values is told by the <see cref="TransferCurve"/> of the photograph. Ranges
/// are checked where a value is used. The default is black.
/// </remarks>
public readonly record struct CameraRgb(double Red, double Green, double Blue)
{
    internal double this[CameraChannel channel] => channel switch
    {
        CameraChannel.Red => Red,
        CameraChannel.Green => Green,
        _ => Blue,
    };

    internal CameraRgb Map(Func<double, double> function) => new(function(Red), function(Green), function(Blue));
}
