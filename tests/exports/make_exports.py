"""Writes the invented exports and truth.csv, the readings that they hold."""
import math
import os

HERE = os.path.dirname(os.path.abspath(__file__))
NM = list(range(400, 701, 10))


def sigmoid(x):
    return 1 / (1 + math.exp(-x))


def reading(low, high, middle, width):
    return lambda nm: low + (high - low) * sigmoid((nm - middle) / width)


# A disc of 0.80 mm over a trap and over a white tile, and the tile.
CURVES = {
    "over black": reading(0.290, 0.412, 455, 28),
    "over white": reading(0.405, 0.668, 470, 40),
    "white tile": reading(0.800, 0.872, 430, 20),
}
REPLICATES = {"over black": [0.0004, -0.0003, -0.0001], "over white": [-0.0002, 0.0005, -0.0003]}


def value(name, nm, digits=4):
    return round(CURVES[name](nm), digits)


def write(name, lines, encoding="utf-8", end="\n"):
    with open(os.path.join(HERE, name), "w", encoding=encoding, newline="") as file:
        file.write(end.join(lines) + end)


def comma(text):
    return text.replace(".", ",")


def percent(x):
    return f"{100 * x:.2f}"


def repeated(name, r, nm):
    return round(value(name, nm) + REPLICATES[name][r], 4) if name in REPLICATES else value(name, nm)


names = list(CURVES)
write("truth.csv", ["nm," + ",".join(names)] + [f"{nm}," + ",".join(f"{value(n, nm):.4f}" for n in names) for nm in NM])

write("comma-down.csv",
      ["Report,Reflectance (invented data)", "Date,2026-11-20 09:14", "Operator,J. Doe", "Aperture (mm),6", "",
       "Wavelength (nm)," + ",".join(names)]
      + [f"{nm}," + ",".join(f"{value(n, nm):.4f}" for n in names) for nm in NM], end="\r\n")

rows = ["Prüfbericht;erfundene Daten", "Gerät;Tischgerät, Öffnung 8 mm", "",
        "Nr.;Bezeichnung;Datum;L*;a*;b*;" + ";".join(f"{nm} nm" for nm in NM)]
number = 0
for n in names:
    for r in range(3 if n in REPLICATES else 1):
        number += 1
        rows.append(f"{number};{n};20.11.2026;70,12;-0,45;12,30;"
                    + ";".join(comma(percent(repeated(n, r, nm))) for nm in NM))
write("semicolon-across.csv", rows, encoding="latin-1", end="\r\n")

write("tab-falling.txt",
      ["Scan of invented specimens", "Wavelength\t" + "\t".join(names), "nm\t%R\t%R\t%R"]
      + [f"{nm}.00\t" + "\t".join(percent(value(n, nm)) for n in names) for nm in reversed(NM)]
      + ["", "End of scan"])

write("pairs.csv",
      [",,".join(names) + ",", ",".join(["Wavelength (nm),%R"] * 3) + ","]
      + [",".join(f"{nm},{percent(value(n, nm))}" for n in names) + "," for nm in reversed(NM)]
      + ["", "Method: invented", "Slit 2 nm"])

rows = ["sample,replicate,wavelength,reflectance"]
for nm in NM:
    for n in names:
        for r in range(3 if n in REPLICATES else 1):
            rows.append(f"{n},{r + 1},{nm},{percent(repeated(n, r, nm))}%")
write("list.csv", rows)

write("blanks.txt", [f"  {nm:.1f}   " + "   ".join(f"{value(n, nm):.4f}" for n in names) for nm in NM])

write("spreadsheet.txt",
      ["λ [nm]\t" + "\t".join(names)]
      + [f"{nm}\t" + "\t".join(comma(f"{value(n, nm):.4f}") for n in names) for nm in NM],
      encoding="utf-16", end="\r\n")

write("quoted.csv",
      ['"Sample","Comment",' + ",".join(f'"R {nm}"' for nm in NM) + ",,"]
      + [f'"{n}, disc of 0,80 mm","say ""invented""",' + ",".join(f'"{comma(f"{value(n, nm):.4f}")}"' for nm in NM)
         + ",," for n in names], encoding="utf-8-sig")

uneven = [398.2 + 2.9 * i + 0.004 * i * i for i in range(92)]
write("bar-uneven.txt",
      ["# array spectrometer, invented", "wavelength | " + " | ".join(names)]
      + [f"{nm:.2f} | " + " | ".join(f"{CURVES[n](float(f'{nm:.2f}')):.5f}" for n in names) for nm in uneven])

rows = ["CGATS.17", "ORIGINATOR \"invented program\"", "CREATED \"20.11.2026\"", "KEYWORD \"APERTURE\"",
        "APERTURE \"8 mm\"", "SPECTRAL_NORM \"100,0\"", f"NUMBER_OF_FIELDS {len(NM) + 3}", "BEGIN_DATA_FORMAT",
        "SAMPLE_ID SAMPLE_NAME LAB_L " + " ".join(f"SPEC_{nm}" for nm in NM), "END_DATA_FORMAT", "NUMBER_OF_SETS 7",
        "BEGIN_DATA"]
number = 0
for n in names:
    for r in range(3 if n in REPLICATES else 1):
        number += 1
        rows.append(f'{number} "{n}" 70,1 ' + " ".join(comma(percent(repeated(n, r, nm))) for nm in NM))
write("replicates-cgats.txt", rows + ["END_DATA"])

rows = ['<?xml version="1.0" encoding="UTF-8"?>',
        '<cc:CxF xmlns:cc="http://colorexchangeformat.com/CxF3-core">',
        "  <cc:FileInformation><cc:Creator>invented program</cc:Creator>"
        "<cc:Description>invented data</cc:Description></cc:FileInformation>",
        "  <cc:Resources><cc:ObjectCollection>"]
number = 0
for n in names:
    for r in range(3 if n in REPLICATES else 1):
        number += 1
        rows.append(f'    <cc:Object ObjectType="Sample" Name="{n}" Id="o{number}"><cc:ColorValues>'
                    '<cc:ReflectanceSpectrum ColorSpecification="s1" Name="r">'
                    + " ".join(f"{repeated(n, r, nm):.4f}" for nm in NM)
                    + "</cc:ReflectanceSpectrum></cc:ColorValues></cc:Object>")
rows += ["  </cc:ObjectCollection><cc:ColorSpecificationCollection>",
         '    <cc:ColorSpecification Id="s1"><cc:MeasurementSpec><cc:MeasurementType>Spectrum_Reflectance'
         '</cc:MeasurementType><cc:GeometryChoice/><cc:WavelengthRange StartWL="400" Increment="10"/>'
         "</cc:MeasurementSpec></cc:ColorSpecification>",
         "  </cc:ColorSpecificationCollection></cc:Resources>", "</cc:CxF>"]
write("objects.cxf", rows)
