// The same crown under three cements, from an F# script. Invented materials.
#r "nuget: CeramicOptics, 0.2.0"

open CeramicOptics.Colorimetry.Differences
open CeramicOptics.Decisions.Cementing
open CeramicOptics.Decisions.Masking
open CeramicOptics.Layers
open CeramicOptics.Layers.Transport
open CeramicOptics.Restorations
open CeramicOptics.Spectra

let grid = WavelengthGrid.Range(380, 780, 10)
let rising = [| for i in 0 .. grid.Count - 1 -> 0.12 + 0.006 * float i |]

let body name absorption scattering (index: float) =
    Material(
        name, TransportModel.Default, AbsorptionSpectrum.Uniform(grid, absorption),
        ScatteringSpectrum.Uniform(grid, scattering), index,
        CoefficientUncertainty.OfScale(grid, 0.05))

let cements =
    [ body "clear cement" 0.02 0.7 1.52; body "tinted cement" 0.08 7.0 1.52; body "opaque cement" 0.05 34.0 1.52 ]
    |> List.map (fun cement -> Layer(cement, 0.06))

let stump =
    Substrate.FromMeasuredReflectance(
        "brown stump", ReflectanceSpectrum(grid, rising), 1.54, MeasurementGeometry.DiffuseSpecularIncluded,
        area = ReadingArea.Large)
let ceramic = Ceramic("invented ceramic", 1, body "ceramic" 0.08 6.0 1.53, Strength = StrengthLimit.Of 0.8)
let zone = Zone("body", stump, 1.0, MaskingReference.SelfBacked)
let crown = Restoration([ zone ], ceramic, cements.Head, ColorCriterion.AcceptabilityThreshold)

let comparison = CementComparison.Find(crown, cements |> List.map CementOption)

let maskings = [ for effect in comparison.Effects -> MaskingThickness.Find effect.Restoration ]

for effect, masking in Seq.zip comparison.Effects maskings do
    let color = effect.Zones[0].Bonded[0]
    let name = effect.Option.Bonded.Material.Name
    printfn "%-14s L* %.1f a* %.1f b* %.1f at 1 mm; %O" name color.L color.A color.B masking.Zones[0].Minimum

for caution in Seq.append comparison.Cautions (maskings |> Seq.collect _.Cautions) |> Seq.distinct do
    printfn "! %O" caution
