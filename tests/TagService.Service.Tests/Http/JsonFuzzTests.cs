using System.Text.Json;
using CsCheck;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;

namespace TagService.Service.Tests.Http;

/// <summary>Whatever comes in, the reader answers: a value whose numbers are in range, or a problem that names places. It never throws.</summary>
public sealed class JsonFuzzTests
{
    private static readonly byte[][] Seeds =
    [
        """{"category":"Pumpe","surface":{"material":"steel","thicknessMm":3.5},"environment":{"setting":"cold-store","ipRequired":["IP67"],"hazardousArea":{"zone":"2"}},"reading":{"requiredRangeM":3,"looks":2}}"""u8.ToArray(),
        """{"assetId":"\u00e4\ud83d\ude80","mounting":{"lengthMm":1e2,"allowDrilling":false},"service":{"currency":"EUR","discountRate":-0.1},"ASSET_NO":[1,{"a":null}]}"""u8.ToArray(),
        """{"observations":[{"leftYears":1,"count":3},{"leftYears":2.5}],"attributes":{"a":"b"},"seenAt":"2026-11-05T14:30:00Z","anyNumber":-1.5e-3}"""u8.ToArray(),
    ];

    [Fact]
    public void Read_MutatedBodies_NeverThrowsAndNamesPlaces() => JsonMutations.Of(Seeds).Sample(Check, iter: 30_000);

    [Fact]
    public void Read_RandomBytes_NeverThrowsAndNamesPlaces() => Gen.Byte.Array[0, 200].Sample(Check, iter: 10_000);

    private static void Check(byte[] body)
    {
        var result = JsonBody.Read<ProbeRecord>(body, JsonReadOptions.Default);
        if (result.IsRead)
        {
            // What was read can be written: no infinity, no half characters.
            JsonSerializer.SerializeToUtf8Bytes(result.Value, WireJson.Options);
            Assert.All(result.OtherMembers.Values, v => v.GetRawText());
            return;
        }

        Assert.Equal(400, result.Problem!.Type.Status);
        Assert.NotEqual(ProblemTypes.InternalError, result.Problem.Type);
        Assert.NotEmpty(result.Problem.Errors ?? []);
        Assert.All(result.Problem.Errors!, e => Assert.StartsWith("#", e.Pointer, StringComparison.Ordinal));
    }
}
