using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;
using TagService.Domain.Words;

namespace TagService.Domain.Tests.Profiles;

/// <summary>Free text to profile. All register texts are invented, written as people write them.</summary>
public sealed class ProfileMatcherTests
{
    public static TheoryData<string> Ids => [.. AssetProfiles.Table.All.Select(p => p.Id)];

    [Theory]
    [MemberData(nameof(Ids))]
    public void Match_EveryWordOfAProfile_FindsItOrNamesItAmongTheCandidates(string id)
    {
        var profile = AssetProfiles.Table[id];
        // Words that differ only in accents are the same to people who type without them ("pila", "piła").
        var byWord = AssetProfiles.Table.All
            .SelectMany(p => p.Words.Values.SelectMany(w => w).Select(w => (Word: TextFold.Fold(w), p.Id)))
            .Distinct()
            .ToLookup(p => p.Word, p => p.Id);
        foreach (var word in profile.Words.Values.SelectMany(w => w))
        {
            var match = ProfileMatcher.Match(new() { Category = word.ToUpperInvariant() });
            if (byWord[TextFold.Fold(word)].Count() == 1)
            {
                Assert.True(match.Profile.Id == id, $"'{word}' of {id} finds {match.Profile.Id} by {string.Join(", ", match.MatchedWords)}");
                Assert.True(match.Confidence >= 0.9, $"'{word}' of {id}: {match.Confidence}, also {string.Join(", ", match.Alternatives.Select(a => a.Id))}");
            }
            else
            {
                Assert.Contains(id, match.Alternatives.Append(match.Profile).Select(p => p.Id));
                Assert.InRange(match.Confidence, 0, 0.6);
            }
        }
    }

    [Theory]
    [InlineData("Kreiselpumpe", "pump")]
    [InlineData("KREISELPUMPEN", "pump")]
    [InlineData("Abwasserpumpe DN80", "pump")]
    [InlineData("Pumpe, Dosier-", "pump")]
    [InlineData("PMP-0417", "pump")]
    [InlineData("pompe centrifuge 5,5 kW", "pump")]
    [InlineData("Bomba sumergible", "pump")]
    [InlineData("Akkubohrschrauber 18 V", "power-tool")]
    [InlineData("Handkreissäge", "power-tool")]
    [InlineData("Handkreissaege", "power-tool")]
    [InlineData("échelle coulissante 2 plans", "ladder")]
    [InlineData("ECHELLE", "ladder")]
    [InlineData("Escalera de tijera 6 peldaños", "ladder")]
    [InlineData("Drehstrommotoren", "motor")]
    [InlineData("moteur de pompe", "motor")]
    [InlineData("pump motor", "motor")]
    [InlineData("Motorpumpe", "pump")]
    [InlineData("Ordinateur portable 14 pouces", "laptop")]
    [InlineData("Notebooks", "laptop")]
    [InlineData("Chlorgasflaschen 65 kg", "chlorine-cylinder")]
    [InlineData("Prüfgasflasche CH4", "gas-cylinder")]
    [InlineData("bouteille d'oxygène 10 L", "gas-cylinder")]
    [InlineData("Pulver-Feuerlöscher 6 kg", "fire-extinguisher")]
    [InlineData("EXTINTOR CO2 5KG", "fire-extinguisher")]
    [InlineData("Débitmètre électromagnétique DN 100", "flow-meter")]
    [InlineData("actionneur de vanne", "valve-actuator")]
    [InlineData("Krankenhausbetten", "medical-bed")]
    [InlineData("bomba de infusión", "infusion-device")]
    [InlineData("Silla de ruedas plegable", "wheelchair")]
    [InlineData("Bettlaken weiss", "linen")]
    [InlineData("Straßenbäume", "tree")]
    [InlineData("vaca lechera", "livestock")]
    [InlineData("Aktenordner", "document-file")]
    [InlineData("Schlüsselbund Halle 3", "key-ring")]
    [InlineData("Bürodrehstühle", "chair")]
    [InlineData("Höhenverstellbarer Schreibtisch", "desk-table")]
    [InlineData("Tableau blanc", "whiteboard")]
    [InlineData("wózek widłowy", "forklift")]
    [InlineData("gaśnice", "fire-extinguisher")]
    [InlineData("Heftruck 2,5 ton", "forklift")]
    [InlineData("bancali", "pallet")]
    [InlineData("Pallet truck 2.5 t", "roll-cage")]
    [InlineData("Valves / Gate valves", "valve")]
    [InlineData("Equipment > Rotating > Centrifugal pumps", "pump")]
    [InlineData("Schachtdeckel Kl. D", "manhole-cover")]
    [InlineData("GAS DETECTOR PORTABLE", "gas-detector")]
    [InlineData("SAMPLER AUTO REFRIG", "sample-crate")]
    [InlineData("GENERATOR MOBILE 100KVA", "generator")]
    [InlineData("BYPASS PUMP TRAILER", "trailer")]
    [InlineData("CYL CHLORINE 71KG", "chlorine-cylinder")]
    [InlineData("Akku-Schrauber", "power-tool")]
    [InlineData("MCC SECTION", "electrical-panel")]
    [InlineData("perceuse visseuse sans fil", "power-tool")]
    [InlineData("câble de moteur", "cable")]
    [InlineData("silnik pompy", "motor")]
    public void Match_RegisterCategory_FindsTheProfile(string category, string profileId)
    {
        var match = ProfileMatcher.Match(new() { Category = category });
        Assert.Equal(profileId, match.Profile.Id);
        Assert.InRange(match.Confidence, 0.6, 1);
        Assert.NotEmpty(match.MatchedWords);
    }

    [Theory]
    [InlineData("labtop", "laptop")]
    [InlineData("Moniotr", "monitor")]
    [InlineData("Feuerlöcher", "fire-extinguisher")]
    [InlineData("Extingiusher", "fire-extinguisher")]
    [InlineData("imprimmante", "printer")]
    [InlineData("destornilador", "hand-tool")]
    [InlineData("Forklft", "forklift")]
    [InlineData("Centrifugal pmup", "pump")]
    [InlineData("Vavle DN80", "valve")]
    public void Match_OneSpellingMistake_FindsTheProfileWithLessConfidence(string category, string profileId)
    {
        var match = ProfileMatcher.Match(new() { Category = category });
        Assert.Equal(profileId, match.Profile.Id);
        Assert.InRange(match.Confidence, 0.6, 0.9);
    }

    [Theory]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData("xyzzy")]
    [InlineData("4711-0815")]
    [InlineData("AST-000123")]
    [InlineData("насос")]
    [InlineData("泵")]
    [InlineData("Sonstiges Zeug")]
    public void Match_NothingRecognised_SaysSo(string text)
    {
        var match = ProfileMatcher.Match(new() { Category = text, Description = text });
        Assert.Same(AssetProfiles.Unknown, match.Profile);
        Assert.Equal(0, match.Confidence);
    }

    [Theory]
    [InlineData("ventilator")]
    [InlineData("Hose")]
    [InlineData("Tafel")]
    public void Match_WordOfTwoKindsOfAsset_IsNotConfidentAndNamesBoth(string text)
    {
        var match = ProfileMatcher.Match(new() { Category = text });
        Assert.InRange(match.Confidence, 0, 0.55);
        Assert.NotEmpty(match.Alternatives);
    }

    [Fact]
    public void Match_AmbiguousCategory_IsSettledByTheDescription()
    {
        var match = ProfileMatcher.Match(new() { Category = "Ventilator", Description = "Beatmungsgerät Intensivstation" });
        Assert.Equal("bedside-device", match.Profile.Id);
        Assert.InRange(match.Confidence, 0.8, 1);
    }

    [Theory]
    [InlineData("Vehicle", "Trailer, 2 axles, 3.5 t", "trailer")]
    [InlineData("IT-Geräte", "Laptop 15 Zoll mit Dockingstation", "laptop")]
    [InlineData("Equipment", "Submersible pump with motor and cable", "pump")]
    [InlineData("Möbel", "Rollcontainer und Schreibtisch", "desk-table")]
    [InlineData("Tools", "Ladder 3.5 m", "ladder")]
    public void Match_BroadCategory_GivesWayToASpecificDescription(string category, string description, string profileId)
    {
        var match = ProfileMatcher.Match(new() { Category = category, Description = description });
        Assert.Contains(profileId, match.Alternatives.Append(match.Profile).Select(p => p.Id));
        Assert.False(match.Profile.Broad);
    }

    [Theory]
    [InlineData("Vehicle", "vehicle")]
    [InlineData("Furniture", "furniture")]
    [InlineData("Maschinen", "plant-equipment")]
    [InlineData("matériel informatique", "it-equipment")]
    public void Match_OnlyABroadWord_FindsTheBroadProfile(string category, string profileId) =>
        Assert.Equal(profileId, ProfileMatcher.Match(new() { Category = category }).Profile.Id);

    [Fact]
    public void Match_FurtherFields_HelpUnlessTheySpeakOfPlaces()
    {
        var byType = ProfileMatcher.Match(new() { Attributes = new Dictionary<string, string> { ["Equipment type"] = "Centrifuge" } });
        Assert.Equal("laboratory-instrument", byType.Profile.Id);
        Assert.InRange(byType.Confidence, 0.7, 0.8);
        var byPlace = ProfileMatcher.Match(new() { Attributes = new Dictionary<string, string> { ["Location"] = "Pump house 3", ["Room"] = "Server room" } });
        Assert.Same(AssetProfiles.Unknown, byPlace.Profile);
    }

    [Fact]
    public void Match_TwoFieldsAgree_RaisesConfidence()
    {
        var one = ProfileMatcher.Match(new() { Category = "Pumpe" });
        var two = ProfileMatcher.Match(new() { Category = "Pumpe", Description = "Kreiselpumpe 7,5 kW" });
        var against = ProfileMatcher.Match(new() { Category = "Pumpe", Description = "Getriebemotor 7,5 kW" });
        Assert.True(two.Confidence > one.Confidence);
        Assert.True(against.Confidence < one.Confidence);
        Assert.Equal("pump", against.Profile.Id);
        Assert.Contains(against.Alternatives, p => p.Id == "motor");
    }

    [Fact]
    public void Match_CategoryWins_OverPartsNamedInTheDescription()
    {
        var match = ProfileMatcher.Match(new() { Category = "Laptop", Description = "14 inch, with charger, bag and monitor cable" });
        Assert.Equal("laptop", match.Profile.Id);
        Assert.InRange(match.Confidence, 0.5, 1);
    }

    [Fact]
    public void Match_OrderOfFurtherFields_DoesNotMatter()
    {
        var a = new Dictionary<string, string> { ["type"] = "valve", ["model"] = "actuator", ["name"] = "pump" };
        var b = a.Reverse().ToDictionary();
        ProfileMatch left = ProfileMatcher.Match(new() { Attributes = a }), right = ProfileMatcher.Match(new() { Attributes = b });
        Assert.Equal(left.Profile.Id, right.Profile.Id);
        Assert.Equal(left.Confidence, right.Confidence);
        Assert.Equal(left.MatchedWords, right.MatchedWords);
    }

    [Fact]
    public void Match_VeryLongText_IsCutNotRefused()
    {
        var match = ProfileMatcher.Match(new AssetRecord { Category = "Pump " + new string('x', 1_000_000), Description = string.Concat(Enumerable.Repeat("valve, ", 100_000)) });
        Assert.Equal("pump", match.Profile.Id);
    }
}
