// The same crown under three cements, from an F# script. Invented materials.
#r "nuget: CeramicOptics, 0.1.0"

open CeramicOptics.Colorimetry
open CeramicOptics.Colorimetry.Differences
open CeramicOptics.Layers
open CeramicOptics.Selection
open CeramicOptics.Spectra

let grid = WavelengthGrid.Range(380, 780, 10)
let rising = [| for i in 0 .. grid.Count - 1 -> 0.12 + 0.006 * float i |]

let body name absorption scattering (index: float) =
    Material(name, AbsorptionSpectrum.Uniform(grid, absorption), ScatteringSpectrum.Uniform(grid, scattering), index, CoefficientUncertainty.OfScale(grid, 0.05))

let ceramic = body "ceramic" 0.08 4.0 1.53
let stump = Substrate.FromMeasuredReflectance("brown stump", ReflectanceSpectrum(grid, rising), 1.54)

for cement in [ body "clear cement" 0.02 0.5 1.52; body "tinted cement" 0.08 5.0 1.52; body "opaque cement" 0.05 25.0 1.52 ] do
    let crown = LayerStack([ Layer(ceramic, 1.0); Layer(cement, 0.06) ], stump)
    let color = Colorimeter.D65TwoDegree.ToLab(crown.Reflectance())
    let masking = MaskingThickness.Find(crown, 0, struct (0.3, 3.0), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch)
    let needs =
        match Option.ofNullable masking.RecommendedMinimumMm with
        | Some mm -> sprintf "masks from %.2f ± %.2f mm on" mm (masking.ThicknessStandardUncertaintyMm.GetValueOrDefault())
        | None -> "does not mask up to 3 mm"
    printfn "%-22s L* %.1f a* %.1f b* %.1f; %s" cement.Name color.L color.A color.B needs

printfn "! Masking is not strength: minimum thickness and tooth reduction are decided by licensed practice and local rules."
