using BenchmarkDotNet.Attributes;
using TagService.Domain.Identity;
using TagService.Domain.Identity.Schemes;
using TagService.Domain.Identity.Text;

namespace TagService.Benchmarks;

/// <summary>
/// Identities of read events: goal at least 2 million GIAI-96 a second and core, that is 500 ns each, without allocation. Each operation is
/// one EPC; the EPCs of a run differ, as those of a site do.
/// </summary>
[MemoryDiagnoser, MedianColumn]
public class IdentityBenchmarks
{
    private const int Count = 1024;
    private byte[][] _epcs = [];
    private string[] _texts = [];

    /// <summary>Scheme of the EPCs.</summary>
    [Params("GIAI-96", "GRAI-96", "SGTIN-96", "GIAI-202", "GIAI+", "raw")]
    public string Scheme { get; set; } = "GIAI-96";

    /// <summary>Makes the EPCs: numbers counted up from an invented start.</summary>
    [GlobalSetup]
    public void Setup()
    {
        var identities = Enumerable.Range(0, Count).Select(i => (IdentityRead)(Scheme switch
        {
            "GRAI-96" => Gs1Keys.Grai("9521141", "12345", $"{100_000 + i}"),
            "SGTIN-96" => Gs1Keys.Sgtin("9521141", "012345", $"{100_000 + i}"),
            "GIAI-202" => Gs1Keys.Giai("9521141", $"PUMP-{i}"),
            _ => Gs1Keys.Giai("9521141", $"{100_000 + i}"),
        })).ToArray();
        _epcs = [.. identities.Select(i => Scheme == "raw" ? [0x01, .. new byte[9], (byte)(i.Key.GetHashCode() & 0x7F), 0x01] : Bits(i))];
        _texts = [.. _epcs.Select(e => EpcDecoder.Key(e, 8 * e.Length).ToString())];
    }

    /// <summary>The identity alone: what read events need.</summary>
    [Benchmark(Baseline = true, OperationsPerInvoke = Count)]
    public int Key()
    {
        var sum = 0;
        foreach (var epc in _epcs)
            sum += (int)EpcDecoder.Key(epc, 8 * epc.Length).Kind;
        return sum;
    }

    /// <summary>Identity and its hash: what a lookup of the tag needs.</summary>
    [Benchmark(OperationsPerInvoke = Count)]
    public int KeyAndHash()
    {
        var sum = 0;
        foreach (var epc in _epcs)
            sum ^= EpcDecoder.Key(epc, 8 * epc.Length).GetHashCode();
        return sum;
    }

    /// <summary>Scheme, filter and reasons too.</summary>
    [Benchmark(OperationsPerInvoke = Count)]
    public int Decode()
    {
        var sum = 0;
        foreach (var epc in _epcs)
            sum += EpcDecoder.Decode(epc, 8 * epc.Length) is DecodedEpc ? 1 : 0;
        return sum;
    }

    /// <summary>The canonical text read back, as from a database column.</summary>
    [Benchmark(OperationsPerInvoke = Count)]
    public int ParseCanonicalText()
    {
        var sum = 0;
        foreach (var text in _texts)
            sum += IdentityKey.TryParse(text, out _) ? 1 : 0;
        return sum;
    }

    private byte[] Bits(IdentityRead identity) =>
        EpcSchemes.Find(Scheme)!.Encode(identity.Content) is EncodedEpc encoded
            ? [.. encoded.Words]
            : throw new InvalidOperationException($"The invented identities must go into {Scheme}.");
}
