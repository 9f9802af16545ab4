/// The questions of the C# program that an F# script would ask, for the same invented materials.
module Program

open System.Globalization
open CeramicOptics.Colorimetry
open CeramicOptics.Colorimetry.Differences
open CeramicOptics.Layers
open CeramicOptics.Mapping
open CeramicOptics.Selection
open CeramicOptics.Spectra

let print name (values: seq<float>) =
    values |> Seq.iteri (fun i value -> printfn "%s %d\t%s" name i (value.ToString("R", CultureInfo.InvariantCulture)))

let grid = WavelengthGrid.Range(400, 700, 10)
let rising = [| for i in 0 .. grid.Count - 1 -> float i / float (grid.Count - 1) |]
let over (f: float -> float) = Array.map f rising

let ceramic =
    Material(
        "ceramic", AbsorptionSpectrum(grid, over (fun x -> 0.05 + 0.2 * (1.0 - x))), ScatteringSpectrum(grid, over (fun x -> 5.0 - x)), 1.53,
        CoefficientUncertainty.OfScale(grid, 0.05))

let cement = Material("cement", AbsorptionSpectrum.Uniform(grid, 0.03), ScatteringSpectrum.Uniform(grid, 0.9), 1.52)
let stump = Substrate.FromMeasuredReflectance("stump", ReflectanceSpectrum(grid, over (fun x -> 0.12 + 0.15 * x)), 1.54)
let stack = LayerStack([ Layer(ceramic, 0.9); Layer(cement, 0.05) ], stump)

print "two-flux" [ TwoFlux.Reflectance(0.1, 3.0, 1.0, 0.2) ]
print "ciede2000" [ ColorDifference.Ciede2000(Lab(50.0, 2.6772, -79.7751), Lab(50.0, 0.0, -82.7485)) ]
print "reflectance" (stack.Reflectance().Values.ToArray())

let masking = MaskingThickness.Find(stack, 0, struct (0.3, 4.0), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch)

print "masking" [
    masking.RecommendedMinimumMm.Value
    masking.ThicknessStandardUncertaintyMm.Value
    masking.DifferenceStandardUncertainty
    masking.ModelDeparture.Value
]

let response = ThicknessResponse.Compile(stack, 0, struct (0.3, 4.0), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch)
let differences = Array.zeroCreate<float> 4
ThicknessMap([ response ]).Differences([| 0.5; 1.0; 1.5; 3.99 |], differences)
print "map" differences
