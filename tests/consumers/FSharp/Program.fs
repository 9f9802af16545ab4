/// The questions of the C# program that an F# script would ask, for the same invented materials.
module Program

open System.Globalization
open CeramicOptics
open CeramicOptics.Colorimetry
open CeramicOptics.Colorimetry.Differences
open CeramicOptics.Decisions.Masking
open CeramicOptics.Decisions.Matching
open CeramicOptics.Layers
open CeramicOptics.Layers.Transport
open CeramicOptics.Layers.TwoFlux
open CeramicOptics.Mapping
open CeramicOptics.Restorations
open CeramicOptics.Spectra

let print name (values: seq<float>) =
    values |> Seq.iteri (fun i value -> printfn "%s %d\t%s" name i (value.ToString("R", CultureInfo.InvariantCulture)))

let grid = WavelengthGrid.Range(400, 700, 10)
let rising = [| for i in 0 .. grid.Count - 1 -> float i / float (grid.Count - 1) |]
let over (f: float -> float) = Array.map f rising
let stump = Substrate.FromMeasuredReflectance("stump", ReflectanceSpectrum(grid, over (fun x -> 0.12 + 0.15 * x)), 1.54,
    MeasurementGeometry.DiffuseSpecularIncluded)

let uniform name k s (index: float) =
    Material(
        name, TransportModel.Default, AbsorptionSpectrum.Uniform(grid, k), ScatteringSpectrum.Uniform(grid, s), index,
        CoefficientUncertainty.OfScale(grid, 0.05))

let ceramic =
    Ceramic(
        "invented", 1,
        Material(
            "ceramic", TransportModel.Default, AbsorptionSpectrum(grid, over (fun x -> 0.05 + 0.2 * (1.0 - x))),
            ScatteringSpectrum(grid, over (fun x -> 7.0 - x)), 1.53, CoefficientUncertainty.OfScale(grid, 0.03)),
        Strength = StrengthLimit.Of 0.6)

let crown =
    Restoration(
        [ Zone("body", stump, 1.4, MaskingReference.SelfBacked) ], ceramic, Layer(uniform "cement" 0.03 0.9 1.52, 0.05),
        ColorCriterion.AcceptabilityThreshold, WallRange = ThicknessRange(0.3, 4.0))

print "two-flux" [ TwoFluxLayer.Reflectance(0.1, 3.0, 1.0, 0.2) ]
print "ciede2000" [ ColorDifference.Ciede2000(Lab(50.0, 2.6772, -79.7751), Lab(50.0, 0.0, -82.7485)) ]

let stack = crown.StackOver(stump, 0.9)
print "reflectance" (stack.Reflectance().Values.ToArray())

let response =
    stack.Compile(MeasurementGeometry.DiffuseSpecularIncluded, [| VariableThickness(0, ThicknessRange(0.3, 4.0)) |])

print "compiled reflectance" (response.Reflectance(stump, 1.7).Values.ToArray())

let masking = (MaskingThickness.Find crown).Zones[0]

print "masking" [
    masking.Minimum.ByColorMm.Value
    masking.Minimum.ReliableMm.Value
    masking.Minimum.RecommendedMm.Value
    masking.Minimum.StandardUncertaintyMm.Value
    masking.StandardUncertainty
]

printfn "masking in German\t%s" (masking.ToString(Language.German))

let target =
    Target.FromColor(
        "neighbour", Lab(78.0, 1.0, 9.0), Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded)

let wish = crown.WithZones [ Zone("body", stump, 1.4, target, ThinnestMm = 0.6) ]
let dense = Ceramic("invented", 2, uniform "core" 0.2 10.0 1.55, Strength = StrengthLimit.Of 0.6)
let best = Match.Find(wish, MatchOptions [ ceramic; dense ]).Closest
print "match" [ best.WorstDifference; best.Zones[0].WallMm ]
printfn "match in words\t%s" (best.Explain())

let differences = Array.zeroCreate<float> 4
ThicknessMap([ ThicknessResponse.Compile(crown, crown.Zones[0]) ]).Differences([| 0.5; 1.0; 1.5; 3.99 |], differences)
print "map" differences
