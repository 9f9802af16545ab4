using CeramicOptics.Decisions.Masking;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>The ceramics over one cement, and what each zone looks like at its available thickness.</summary>
internal sealed class RankedCement
{
    private readonly ReflectanceSpectrum[][] _spectra;

    public RankedCement(CaseFile caseFile, IReadOnlyList<Ceramic> ceramics, CementChoice cement)
    {
        (Cement, Ranking) = (cement, GradeChoice.Find(caseFile.Masking(ceramics[0], cement), ceramics));
        _spectra = Concurrently.Each(Ranking.Assessments, assessment =>
        {
            Restoration made = assessment.Masking.Restoration;
            return made.Zones.Select(zone => made.StackOver(zone.Stump, zone.AvailableMm).Reflectance()).ToArray();
        });
    }

    public CementChoice Cement { get; }

    public GradeRanking Ranking { get; }

    /// <summary>The spectrum of a zone with a ceramic of the ranking.</summary>
    public ReflectanceSpectrum SpectrumOf(int rank, int zone) => _spectra[rank][zone];
}
