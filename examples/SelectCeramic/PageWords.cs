namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>The words of the page for dentist and patient in one language; {0}, {1} … are filled in.</summary>
internal sealed record PageWords
{
    public required Language Language { get; init; }

    public required string Predicted { get; init; }

    public required string Invented { get; init; }

    public required string Suggested { get; init; }

    public required string NotSuggested { get; init; }

    public required string Reliable { get; init; }

    public required string Unreliable { get; init; }

    public required string Nearest { get; init; }

    public required string Largest { get; init; }

    public required string HalfAccept { get; init; }

    public required string HalfNotSee { get; init; }

    public required string Look { get; init; }

    public required string OnModel { get; init; }

    public required string Bonded { get; init; }

    public required string LookNote { get; init; }

    public required string Zone { get; init; }

    public required string SwatchNote { get; init; }

    public required string Reach { get; init; }

    public required string Wish { get; init; }

    public required string WishSwatch { get; init; }

    public required string NearestSwatch { get; init; }

    public required string Choices { get; init; }

    public required string ChoicesCaption { get; init; }

    public required string Choice { get; init; }

    public required string Worst { get; init; }

    public required string Mean { get; init; }

    public required string WhereAndWhat { get; init; }

    public required string ChoicesNote { get; init; }

    public required string Nearer { get; init; }

    public required string Stain { get; init; }

    public required string NoStain { get; init; }

    public required string StainHelps { get; init; }

    public required string HowSure { get; init; }

    public required string Interval { get; init; }

    public required string Bars { get; init; }

    public required string ToHide { get; init; }

    public required string Hidden { get; init; }

    public required string HiddenMargin { get; init; }

    public required string Cautions { get; init; }

    public static PageWords English { get; } = new()
    {
        Language = Language.English,
        Predicted = "Predicted before anything is made.",
        Invented = "All data on this page is invented for demonstration.",
        Suggested = "Suggested for review:",
        NotSuggested = "No choice is reliable; the best of them:",
        Reliable = "It is the most translucent choice that reliably matches {0}.",
        Unreliable = "It matches {0}, but not reliably.",
        Nearest = "It comes nearest to {0}, but does not meet the limit.",
        Largest = "The largest difference, in zone {0}, is {1:0.0}; the limit is {2:0.0}, margin {6:+0.0;-0.0;0.0} "
            + "({3}: {4}). The finished crown stays within the limit in that zone with probability {5}.",
        HalfAccept = "half of all people would accept a difference of that size",
        HalfNotSee = "half of all people would not see a difference of that size",
        Look = "What it will look like",
        OnModel = "dry, on a light model",
        Bonded = "bonded over this stump",
        LookNote = "Colours of the zones in daylight D65, with gradual transitions; only the outlines are shaded. The "
            + "model is "
            + "assumed to reflect 70 %. Screens and printers show colours only approximately.",
        Zone = "{0}, {1} mm, difference {2:0.0}",
        SwatchNote = "Target on the left, prediction on the right; a difference shows where they meet.",
        Reach = "What can be achieved",
        Wish = "Also wished for: {0}.",
        WishSwatch = "the wish",
        NearestSwatch = "the nearest colour that can be made",
        Choices = "The choices",
        ChoicesCaption = "Best first, by the zone with the largest difference (CIEDE2000) under all lights.",
        Choice = "Choice",
        Worst = "largest",
        Mean = "mean",
        WhereAndWhat = "Where and what",
        ChoicesNote = "✓ within the limit in every zone by the prediction, ✗ not.",
        Nearer = "What would bring it closer",
        Stain = "Stain",
        NoStain = "No stain brings it visibly closer.",
        StainHelps = "{0} (share of the full load) in {1}, applied {2:0} µm thick: the largest difference of {3:0.0} "
            + "becomes {4:0.0}.",
        HowSure = "How certain this is",
        Interval = "Predicted difference {0:0.0} ± {1:0.0} in the limiting zone; 95 % of crowns made like this lie "
            + "between {2:0.0} "
            + "and {3:0.0}. What matters most:",
        Bars = "Bars: the difference when one input is one standard uncertainty lower or higher. Line: the prediction. "
            + "{0} samples.",
        ToHide = "Hiding the stump: zone {0}.",
        Hidden = "Hiding the stump: the walls of this choice hide it reliably. In zone {0}, where the margin is "
            + "smallest, a wall of {1:0.00} mm "
            + "hides it with probability {2}; needed there: {3}.",
        HiddenMargin = "Margin {0:+0.00;-0.00;0.00} mm.",
        Cautions = "Cautions",
    };

    public static PageWords German { get; } = new()
    {
        Language = Language.German,
        Predicted = "Vorhergesagt, bevor etwas gefertigt wird.",
        Invented = "Alle Daten auf dieser Seite sind zur Veranschaulichung erfunden.",
        Suggested = "Zur Prüfung vorgeschlagen:",
        NotSuggested = "Keine Möglichkeit ist zuverlässig; die beste davon:",
        Reliable = "Das ist die transluzenteste Möglichkeit, die zuverlässig zum Ziel passt ({0}).",
        Unreliable = "Das passt zum Ziel ({0}), aber nicht zuverlässig.",
        Nearest = "Das kommt dem Ziel ({0}) am nächsten, hält die Grenze aber nicht ein.",
        Largest = "Der größte Farbabstand, in Zone {0}, ist {1:0.0}; verlangt sind höchstens {2:0.0}, Reserve "
            + "{6:+0.0;-0.0;0.0} "
            + "({3}: {4}). Mit einer Wahrscheinlichkeit von {5} hält die fertige Krone die Grenze in dieser Zone ein.",
        HalfAccept = "die Hälfte aller Menschen würde einen Farbabstand dieser Größe akzeptieren",
        HalfNotSee = "die Hälfte aller Menschen würde einen Farbabstand dieser Größe nicht sehen",
        Look = "Voraussichtliches Aussehen",
        OnModel = "trocken, auf hellem Modell",
        Bonded = "befestigt auf diesem Stumpf",
        LookNote = "Farben der Zonen bei Tageslicht D65 mit allmählichen Übergängen; nur die Umrisse sind schattiert. "
            + "Für das Modell "
            + "ist ein Reflexionsgrad von 70 % angenommen. Bildschirm und Drucker geben Farben nur ungefähr wieder.",
        Zone = "{0}, {1} mm, Farbabstand {2:0.0}",
        SwatchNote = "Links das Ziel, rechts die Vorhersage; ein Unterschied zeigt sich an der Grenze.",
        Reach = "Was erreichbar ist",
        Wish = "Außerdem gewünscht: {0}.",
        WishSwatch = "der Wunsch",
        NearestSwatch = "die nächste erreichbare Farbe",
        Choices = "Die Möglichkeiten",
        ChoicesCaption = "Die beste zuerst, nach der Zone mit dem größten Farbabstand (CIEDE2000) unter allen "
            + "Lichtarten.",
        Choice = "Möglichkeit",
        Worst = "größter",
        Mean = "Mittel",
        WhereAndWhat = "Wo und was",
        ChoicesNote = "✓ nach der Vorhersage in jeder Zone innerhalb der Grenze, ✗ nicht.",
        Nearer = "Was näher ans Ziel führen würde",
        Stain = "Malfarbe",
        NoStain = "Keine Malfarbe führt sichtbar näher ans Ziel.",
        StainHelps = "{0} (Anteil am vollen Pigmentgehalt) in {1}, {2:0} µm stark aufgetragen: Der größte Farbabstand "
            + "ist dann {4:0.0} statt {3:0.0}.",
        HowSure = "Wie sicher ist das?",
        Interval = "Vorhergesagter Farbabstand {0:0.0} ± {1:0.0} in der ungünstigsten Zone; 95 % der so gefertigten "
            + "Kronen liegen zwischen "
            + "{2:0.0} und {3:0.0}. Den größten Einfluss haben:",
        Bars = "Balken: Farbabstand, wenn eine Größe um eine Standardunsicherheit kleiner oder größer ist; Linie: "
            + "Vorhersage. {0} Stichproben.",
        ToHide = "Abdeckung des Stumpfs: Zone {0}.",
        Hidden = "Abdeckung des Stumpfs: Die Wände dieser Möglichkeit decken ihn zuverlässig ab. In Zone {0} mit der "
            + "kleinsten Reserve "
            + "deckt eine Wand von {1:0.00} mm ihn mit einer Wahrscheinlichkeit von {2} ab; nötig sind dort: {3}.",
        HiddenMargin = "Reserve {0:+0.00;-0.00;0.00} mm.",
        Cautions = "Hinweise",
    };
}
