using System.Collections;
using System.Globalization;
using System.Reflection;
using System.Resources;
using System.Text.RegularExpressions;
using CeramicOptics.Decisions;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Unit;

/// <summary>Answers in words: both languages are complete, and nothing that an answer says passes them by.</summary>
public class WordsTests
{
    private static readonly Dictionary<string, string> InEnglish = Words("English"), InGerman = Words("German");

    // Every word of the resources becomes dots; names of the caller are Greek, so that a Latin letter is a word
    // that did not come from the resources.
    private static readonly Language Dots = new("..", key => InEnglish.TryGetValue(key, out string? words)
        ? Regex.Replace(words, @"\{[^}]*\}|[A-Za-z]", part => part.Value.Length > 1 ? part.Value : "·")
        : null, NumberFormatInfo.InvariantInfo);

    [Fact]
    public void A_caution_is_complete_with_what_its_words_need()
    {
        foreach (CautionKind kind in Enum.GetValues<CautionKind>())
        {
            foreach (string? subject in (string?[])[null, "x"])
            {
                string words = subject is null && InEnglish.TryGetValue($"Caution.{kind}.Choices", out string? choices)
                    ? choices : InEnglish[$"Caution.{kind}"];
                bool lacksSubject = subject is null && words.Contains("{0", StringComparison.Ordinal);
                bool needsValue = words.Contains("{1", StringComparison.Ordinal);
                Assert.Equal(!lacksSubject, new Caution(kind, subject, 1).IsComplete);
                Assert.Equal(!lacksSubject && !needsValue, new Caution(kind, subject).IsComplete);
            }
        }
    }

    [Fact]
    public void What_rounds_to_zero_has_no_sign()
    {
        Assert.Equal("L* 50.0, a* 0.0, b* 0.0", new Lab(50, -0.04, -0.0).ToString());
        Assert.Equal("L* 50.0, a* -0.1, b* -1.0", new Lab(50, -0.06, -1).ToString());
        Assert.Equal("L* 50,0, a* 0,0, b* -0,1", new Lab(50, -0.04, -0.06).ToString(Language.German));
    }

    [Fact]
    public void Both_languages_have_the_same_keys_with_the_same_values()
    {
        Assert.True(InEnglish.Count > 200);
        Assert.Equal(InEnglish.Keys.Order(StringComparer.Ordinal), InGerman.Keys.Order(StringComparer.Ordinal));
        foreach ((string key, string english) in InEnglish)
        {
            Assert.NotEqual("", english.Trim());
            Assert.NotEqual("", InGerman[key].Trim());
            Assert.Equal(Values(english), Values(InGerman[key]));

            // The English name of what has a name is the name itself.
            Assert.True(!key.StartsWith("Name.", StringComparison.Ordinal) || key == "Name." + english, key);
        }

        static IEnumerable<string> Values(string words) =>
            Regex.Matches(words, @"\{[^}]*\}").Select(match => match.Value).Distinct().Order(StringComparer.Ordinal);
    }

    /// <summary>
    /// Every text of every answer, and of all that an answer holds, comes from the resources; English is what is said
    /// without asking, whatever the culture of the thread.
    /// </summary>
    [Fact]
    public void No_word_of_an_answer_passes_the_resources_by()
    {
        HashSet<Type> said = [];
        CultureInfo before = CultureInfo.CurrentCulture;
        CultureInfo.CurrentCulture = new Spoken("de-DE");
        try
        {
            foreach (IFormattable answer in Reached(EveryAnswer.All()))
            {
                said.Add(answer.GetType());
                string dotted = answer.ToString(null, Dots) + (answer as MatchCandidate)?.Explain(Dots);
                dotted = Regex.Replace(dotted, @"\b(D65|A)\b", "");
                Assert.False(Regex.IsMatch(dotted, "[A-Za-z]"), $"{answer.GetType().Name}: {dotted}");
                string english = answer.ToString(null, Language.English);
                Assert.Equal(english, answer.ToString());
                Assert.Equal(english, answer.ToString(null, null));
                Assert.Equal(english, answer.ToString(null, CultureInfo.InvariantCulture));
                Assert.Equal(english, $"{answer}");
                string german = answer.ToString(null, Language.German);
                Assert.Equal(german, answer.ToString(null, new Spoken("de-DE")));
                Assert.Equal(german, string.Create(Language.German, $"{answer}"));
                Assert.DoesNotContain("NaN", german, StringComparison.Ordinal);
                Assert.False(Regex.IsMatch(german, @"\d\.\d"), german);
            }
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }

        Assert.Equal(
            "",
            string.Join(" ", typeof(Language).Assembly.GetExportedTypes()
                .Where(type => typeof(IFormattable).IsAssignableFrom(type) && !type.IsEnum && !type.IsAbstract)
                .Except(said).Select(type => type.Name)));
    }

    /// <summary>Whatever holds cautions, or is part of an answer, can be said.</summary>
    [Fact]
    public void Every_answer_has_words()
    {
        string[] noAnswers =
        [
            "ResultDocument", "ThicknessMap", "TwoLayerMap", "SpreadMap", "GpuTable", "SpotPoint", "MeshEdge",
            "Pigment", "StainLayer",
        ];
        Assert.Equal(
            "",
            string.Join(" ", typeof(Language).Assembly.GetExportedTypes()
                .Where(type => (type.Namespace!.StartsWith("CeramicOptics.Decisions", StringComparison.Ordinal)
                        || type.GetProperty("Cautions") is not null || type.GetProperty("Findings") is not null)
                    && !type.IsEnum && !(type.IsAbstract && type.IsSealed)
                    && !type.Name.EndsWith("Options", StringComparison.Ordinal)
                    && !typeof(IFormattable).IsAssignableFrom(type))
                .Select(type => type.Name).Except(noAnswers).Order(StringComparer.Ordinal)));
    }

    [Fact]
    public void A_culture_gives_words_and_numbers()
    {
        MinimumThickness minimum = new(1.381, 1.541, 0.8001, 3, 0.955, null);
        const string InGermany = "mindestens 1,55 mm (nach Farbe 1,39, zuverlässig bei 95,5 % der Restaurationen "
            + "1,55, Festigkeit 0,81)";
        Assert.Equal(InGermany, minimum.ToString(Language.German));
        Assert.Equal(InGermany, minimum.ToString(new Spoken("de-DE")));
        Assert.Equal(InGermany, minimum.ToString(new Spoken("de")));
        Assert.Equal(
            InGermany.Replace("1,", "1.").Replace("0,", "0.").Replace("5,5", "5.5"),
            minimum.ToString(new Spoken("de-CH", ".")));
        const string InEngland =
            "at least 1.55 mm (by colour 1.39, reliable for 95.5 % of pieces 1.55, strength 0.81)";
        Assert.All(
            (IFormatProvider?[])[null, Language.English, CultureInfo.InvariantCulture, new Spoken("en-GB", "."),
                new Spoken("fr-FR"), new Spoken("den"), new NumberFormatInfo { NumberDecimalSeparator = "," }],
            provider => Assert.Equal(InEngland, minimum.ToString(provider)));
        Assert.Equal("Gerüst", Language.German.NameOf(LayerRole.Core));
        Assert.Contains(
            "CautionKind.ToothReduction has no name",
            Assert.Throws<ArgumentException>(() => Language.German.NameOf(CautionKind.ToothReduction)).Message,
            StringComparison.Ordinal);
        Assert.Equal(["en", "de"], Language.All.Select(language => language.Name));
    }

    /// <summary>What is shown is never better than what was found.</summary>
    [Fact]
    public void Margins_and_probabilities_are_rounded_down()
    {
        Assert.Equal("0.849 ± 0.005", new Probability(0.8499, 0.0041, 10_000).ToString());
        Assert.Equal("0,849 ± 0,001", new Probability(0.8499, 0, 10_000).ToString(Language.German));
        Language margins = new("..", _ => "{0:margin}", NumberFormatInfo.InvariantInfo);
        Assert.Equal(
            ["+0.12", "-0.13", "0.00", "-0.01"],
            new[] { 0.129, -0.121, 0.0049, -0.001 }.Select(mm => margins.Text("x", mm)));
    }

    /// <summary>
    /// Words follow the parts of CIELAB, in both languages, and say "too" only against what is wanted.
    /// </summary>
    [Fact]
    public void Words_for_colours_follow_lightness_red_and_yellow()
    {
        Lab tooth = new(75, 2, 16);
        ColorShift Against(double l, double a, double b, bool isFault = true) =>
            new(tooth, new Lab(75 + l, 2 + a, 16 + b), isFault);
        Assert.Equal("um 2,0 zu hell, um 1,0 zu grün", Against(2, -1, 0.4).ToString(Language.German));
        Assert.Equal("um 4,0 zu blau, um 2,0 zu dunkel, um 1,0 zu rot", Against(-2, 1, -4).ToString(Language.German));
        Assert.Equal("um 3,0 zu gelb", Against(0, 0, 3).ToString(Language.German));
        Assert.Equal("yellower by 3.0, darker by 1.0", Against(-1, 0, 3, isFault: false).ToString());
        Assert.Equal("um 3,0 gelber, um 1,0 dunkler", Against(-1, 0, 3, isFault: false).ToString(Language.German));
        Assert.Equal("jeweils unter 0,5 in L*, a* und b*", Against(0.4, -0.4, 0.4).ToString(Language.German));
    }

    /// <summary>
    /// Nothing is to be taken, used or recommended: words suggest for review, and say nothing of acceptable or sure.
    /// </summary>
    [Fact]
    public void Words_suggest_and_do_not_tell_what_to_do()
    {
        Assert.All(InEnglish.Where(words => !words.Key.StartsWith("Name.", StringComparison.Ordinal)), words =>
            Assert.False(
                Regex.IsMatch(words.Value, @"\b([Tt]ake|[Cc]hoose|recommend\w*|best|acceptable|safe|certain\w*)\b")
                    && !words.Key.StartsWith("PhotographFinding", StringComparison.Ordinal)
                    && !words.Key.StartsWith("Finding", StringComparison.Ordinal), words.Key));
        Assert.All(InGerman.Where(words => !words.Key.StartsWith("Name.", StringComparison.Ordinal)), words =>
            Assert.False(
                Regex.IsMatch(words.Value, @"\b(Sie|[Nn]ehmen|[Ww]ählen|empf\w+|beste\w*|akzeptabel|sicher\w*)\b")
                    && !words.Key.StartsWith("Finding", StringComparison.Ordinal), words.Key));

        // A suggestion stands beside the share it is reliable for, a masking answer beside margin and probability.
        Assert.All((Dictionary<string, string>[])[InEnglish, InGerman], words =>
        {
            Assert.Contains("{2:0.# %}", words["MinimumThickness"], StringComparison.Ordinal);
            Assert.Contains("{3}", words["ZoneMasking"], StringComparison.Ordinal);
            Assert.Contains("{4}", words["ZoneMasking"], StringComparison.Ordinal);
        });
    }

    private static Dictionary<string, string> Words(string language) =>
        new ResourceManager($"CeramicOptics.Words.{language}", typeof(Language).Assembly)
            .GetResourceSet(CultureInfo.InvariantCulture, true, false)!.Cast<DictionaryEntry>()
            .ToDictionary(entry => (string)entry.Key, entry => (string)entry.Value!);

    // Everything with words of its own that an answer holds.
    private static List<IFormattable> Reached(IEnumerable<object> roots)
    {
        HashSet<object> seen = new(ReferenceEqualityComparer.Instance);
        List<IFormattable> reached = [];
        Queue<object?> open = new(roots);
        while (open.Count > 0)
        {
            object? item = open.Dequeue();
            if (item is null or string || !(item is ValueType || seen.Add(item)))
            {
                continue;
            }

            if (item is IEnumerable items)
            {
                foreach (object? part in items)
                {
                    open.Enqueue(part);
                }
            }
            else if (item.GetType().Assembly == typeof(Language).Assembly
                && item is not (Enum or Spectrum or WavelengthGrid))
            {
                if (item is IFormattable answer)
                {
                    reached.Add(answer);
                }

                foreach (PropertyInfo property in item.GetType().GetProperties().Where(property =>
                    property.GetIndexParameters().Length == 0 && property.GetMethod is { IsStatic: false }
                    && property.PropertyType.Namespace != "CeramicOptics.Spectra"
                    && !property.PropertyType.IsByRefLike))
                {
                    try
                    {
                        open.Enqueue(property.GetValue(item));
                    }
                    catch (TargetInvocationException error) when (error.InnerException is InvalidOperationException)
                    {
                        // A colour that is not determined.
                    }
                }
            }
        }

        return reached;
    }

    // A culture by its name with its own decimal separator, as programs without culture data know none.
    private sealed class Spoken : CultureInfo
    {
        public Spoken(string name, string separator = ",")
            : base("")
        {
            Name = name;
            NumberFormat = new NumberFormatInfo
            {
                NumberDecimalSeparator = separator, PercentDecimalSeparator = separator,
            };
        }

        public override string Name { get; }
    }
}
