using TagService.Domain.Words;

namespace TagService.Domain.Profiles;

/// <summary>One part of one field: its own voice on what the asset is.</summary>
/// <param name="Hit">First of its hits.</param>
/// <param name="Count">Number of its hits.</param>
/// <param name="Weight">How often such a field is right.</param>
internal readonly record struct ProfileWitness(byte Hit, byte Count, float Weight);

/// <summary>Gathers the hits of a record's fields; lives on the stack.</summary>
internal ref struct ProfileEvidence(Span<PhraseHit> hits, Span<ProfileWitness> witnesses)
{
    private readonly Span<PhraseHit> _hits = hits;
    private readonly Span<ProfileWitness> _witnesses = witnesses;
    private int _witnessCount;

    public int Count { get; private set; }

    public readonly ReadOnlySpan<PhraseHit> Hits => _hits[..Count];

    public readonly ReadOnlySpan<ProfileWitness> Witnesses => _witnesses[.._witnessCount];

    public void Add(string? text, double weight)
    {
        if (string.IsNullOrWhiteSpace(text))
            return;
        var found = _hits[Count..];
        found = found[..ProfileMatcher.Phrases.Find(text, found)];
        for (var i = 0; i < found.Length;)
        {
            var first = i;
            while (i < found.Length && found[i].Part == found[first].Part)
                i++;
            _witnesses[_witnessCount++] = new((byte)(Count + first), (byte)(i - first), (float)weight);
        }

        Count += found.Length;
    }
}
