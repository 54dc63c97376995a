using System.Collections;
using System.Reflection;
using System.Text.Json;
using TagService.Domain.Recommendations;
using TagService.Domain.Registers;

namespace TagService.Domain.Tests.Registers;

public sealed class MappingTargetsTests
{
    // The record itself is the oracle: a member added to it needs a target.
    [Fact]
    public void All_EveryMemberOfTheAssetRecord_IsATarget()
    {
        var members = Leaves(typeof(AssetRecord), "").Where(p => p != "/attributes").Order(StringComparer.Ordinal);
        var targets = MappingTargets.All.Select(t => t.Pointer).Except(["/location", "/tag", "/retired"]).Order(StringComparer.Ordinal);

        Assert.Equal(members, targets);
    }

    [Fact]
    public void All_ValueSet_IsReadBackAndChangesNothingElse()
    {
        foreach (var target in MappingTargets.All.Where(t => t.Set is not null && !HazardousAreaTargets.IsDetail(t)))
        {
            var value = Sample(target);
            var set = target.Set!(new AssetRecord(), value);
            Assert.Equal(value, target.Get!(set));
            Assert.All(MappingTargets.All.Where(t => t.Get is not null && t != target), other => Assert.Null(other.Get!(set)));
            // Taken away again nothing is left, not even an empty part.
            Assert.Equal(JsonSerializer.Serialize(new AssetRecord()), JsonSerializer.Serialize(target.Set(set, null)));
        }
    }

    [Theory]
    [InlineData("/surface/materiel", "/surface/material")]
    [InlineData("thickness", "/surface/thicknessMm")]
    [InlineData("/reading/requiredRange", "/reading/requiredRangeM")]
    [InlineData("assetid", "/assetId")]
    public void Nearest_SlipOfThePen_FindsWhatWasMeant(string written, string meant) =>
        Assert.Equal(meant, MappingTargets.Nearest(written));

    [Fact]
    public void Nearest_NothingLikeIt_IsNone() => Assert.Null(MappingTargets.Nearest("/purchaseOrderLine"));

    private static object Sample(MappingTarget target) => target.Kind switch
    {
        TargetKind.Number or TargetKind.Money => (target.Least + target.Greatest) / 2,
        TargetKind.WholeNumber => (int)target.Greatest,
        TargetKind.YesNo => true,
        TargetKind.Choice => target.Choices[^1],
        TargetKind.TextList => new[] { "a", "b" },
        _ => "abc",
    };

    private static IEnumerable<string> Leaves(Type type, string prefix) =>
        type.GetProperties(BindingFlags.Public | BindingFlags.Instance).SelectMany(p =>
        {
            var pointer = $"{prefix}/{JsonNamingPolicy.CamelCase.ConvertName(p.Name)}";
            var inner = Nullable.GetUnderlyingType(p.PropertyType) ?? p.PropertyType;
            return inner.IsClass && inner != typeof(string) && !typeof(IEnumerable).IsAssignableFrom(inner) ? Leaves(inner, pointer) : [pointer];
        });
}
