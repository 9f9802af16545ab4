namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>How the page looks on a screen, wide or narrow, and on a sheet of A4, with no text below 8 pt.</summary>
internal static class PageStyle
{
    public const string Css =
        """
        body { font: 16px/1.45 "Liberation Sans", Arial, Helvetica, sans-serif; color: #1a1a1a; background: #fff;
          max-width: 50rem; margin: 1.5rem auto; padding: 0 1rem; }
        h1 { font-size: 1.5rem; margin: 0 0 .2rem; } h2 { font-size: 1.1rem; margin: 1.4rem 0 .4rem; }
        p { margin: .4rem 0; } .note { color: #444; font-size: .85rem; }
        table { border-collapse: collapse; width: 100%; font-size: .85rem; }
        caption { text-align: left; font-size: .85rem; color: #444; padding-bottom: .3rem; }
        th, td { text-align: left; vertical-align: top; padding: .3rem .5rem; border-bottom: 1px solid #999; }
        td.n, th.n { text-align: right; white-space: nowrap; }
        .answer { border-left: .4rem solid #0072b2; padding: .5rem .8rem; background: #f2f6fa; }
        .caution { border: 2px solid #8a3c00; padding: .4rem .8rem; }
        svg { max-width: 100%; height: auto; display: block; font-family: inherit; }
        @page { size: A4; margin: 8mm 12mm; }
        @media print {
          html, body { font-size: 8pt; } body { line-height: 1.15; margin: 0; padding: 0; max-width: none; }
          h1 { font-size: 13pt; } h2 { font-size: 9.5pt; margin: .5rem 0 .1rem; } p { margin: .15rem 0; }
          .note, table, caption { font-size: 8pt; } th, td { padding: .05rem .4rem; }
          ul { margin: .15rem 0; padding-left: 1.4rem; } caption { padding-bottom: 0; }
          svg { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
          .side { display: flex; gap: 5mm; } .side > * { flex: 1 1 0; min-width: 0; } .side > .more { flex-grow: 1.2; }
          .answer { background: none; padding: .1rem .6rem; } .caution { padding: .1rem .6rem; }
          .caution h2 { margin-top: .1rem; } tr, section { break-inside: avoid; }
        }
        """;
}
