using TagService.Domain.Registers;

namespace TagService.Domain.Tests.Registers;

public sealed class RegisterMappingTests
{
    private static readonly MappingRow Key = new() { Target = "/assetId", Source = "No" };

    [Fact]
    public void Compile_EverythingWrong_IsSaidAtOnceAndWhere()
    {
        var issues = Issues(
            new() { Target = "/surface/materiel", Source = "M" },
            new() { Target = "/surface/thicknessMm", Source = "T", Unit = "inchs" },
            new() { Target = "/mounting/lengthMm", Source = "A" },
            new() { Target = "/mounting/lengthMm", Source = "B" },
            new() { Target = "/category" },
            new() { Target = "/category", Source = "/a~2" },
            new() { Target = "/service/lifeYears", Source = "L", Default = "500" },
            new() { Target = "/environment/abrasion", Source = "Ab", ValueTable = new Dictionary<string, string> { ["stark"] = "very high" } },
            new() { Target = "/surface/coating", Source = "C", Unit = "mm" },
            new() { Target = "/retired", Source = "R", WhenNotUnderstood = WhenNotUnderstood.LeaveOut },
            new() { Target = "/environment/hazardousArea/group", Source = "G" });

        Assert.Equal(
            [
                "/rows/0/target", "/rows/1/unit", "/rows/4/source", "/rows/5/source", "/rows/6/default",
                "/rows/7/valueTable/stark", "/rows/8/unit", "/rows/9/whenNotUnderstood",
                "/rows", "/rows", "/rows", "/rows",
            ],
            issues.Select(i => i.Pointer));
        Assert.Contains("/surface/material", issues[0].Accepted, StringComparison.Ordinal);
        Assert.Contains("did you mean in?", issues[1].Accepted, StringComparison.Ordinal);
        Assert.Contains(issues, i => i.Detail == "/mounting/lengthMm is fed by A and B.");
        Assert.Contains(issues, i => i.Detail.Contains("/assetId", StringComparison.Ordinal));
        Assert.Contains(issues, i => i.Detail.Contains("zone", StringComparison.Ordinal));
    }

    [Fact]
    public void Compile_EmptyTwiceMeant_IsAContradiction() =>
        Assert.Equal("/rows/1/emptyClears", Assert.Single(Issues(Key, new() { Target = "/contents", Source = "C", Default = "water", EmptyClears = true })).Pointer);

    [Fact]
    public void Compile_SameWordTwiceInAValueTable_IsAContradiction() =>
        Assert.Equal(
            "/rows/1/valueTable/HOCH",
            Assert.Single(Issues(Key, new() { Target = "/environment/abrasion", Source = "A", ValueTable = new Dictionary<string, string> { ["hoch"] = "high", ["HOCH"] = "low" } })).Pointer);

    [Fact]
    public void Compile_EveryTargetWithASourceOfItsOwn_IsUsable() =>
        Assert.IsType<MappingCompilation.Usable>(
            new RegisterMapping { Rows = [.. MappingTargets.All.Select(t => new MappingRow { Target = t.Pointer, Source = "c" + t.Pointer })] }.Compile());

    private static IReadOnlyList<MappingIssue> Issues(params IReadOnlyList<MappingRow> rows) =>
        Assert.IsType<MappingCompilation.Unusable>(new RegisterMapping { Rows = rows }.Compile()).Issues;
}
