using CsCheck;
using TagService.Domain.Registers;

namespace TagService.Domain.Tests.Registers;

public sealed class JsonPointersTests
{
    // RFC 6901, section 5: the pointers of the example document and the member names they reach.
    [Theory]
    [InlineData("/foo/0", "foo", "0")]
    [InlineData("/", "")]
    [InlineData("/a~1b", "a/b")]
    [InlineData("/c%d", "c%d")]
    [InlineData("/e^f", "e^f")]
    [InlineData("/g|h", "g|h")]
    [InlineData("/i\\j", "i\\j")]
    [InlineData("/k\"l", "k\"l")]
    [InlineData("/ ", " ")]
    [InlineData("/m~0n", "m~n")]
    public void Tokens_ExamplesOfRfc6901_AreReached(string pointer, params string[] tokens)
    {
        Assert.True(JsonPointers.IsValid(pointer));
        Assert.Equal(tokens, JsonPointers.Tokens(pointer));
    }

    // RFC 6901, section 4: "~01" becomes "~1", not "/".
    [Fact]
    public void Tokens_TildeZeroOne_IsTildeOne() => Assert.Equal(["~1"], JsonPointers.Tokens("/~01"));

    [Theory]
    [InlineData("foo")]
    [InlineData("/a~")]
    [InlineData("/a~2")]
    public void IsValid_NoPointer_IsNot(string text) => Assert.False(JsonPointers.IsValid(text));

    [Fact]
    public void Escape_AnyToken_ReadsBack() =>
        Gen.String[Gen.Char["ab~/01"], 0, 12].Sample(token =>
        {
            Assert.True(JsonPointers.IsValid(JsonPointers.OfMember(token)));
            Assert.Equal([token], JsonPointers.Tokens(JsonPointers.OfMember(token)));
        });
}
