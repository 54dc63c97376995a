using TagService.Domain.Recommendations;

namespace TagService.Domain.Profiles;

/// <summary>A text of the record that was not understood.</summary>
/// <param name="Field">Its field.</param>
/// <param name="Text">The text.</param>
internal readonly record struct NotUnderstood(ResolvedField Field, string Text);

/// <summary>Keeps book of where each field came from while a record is resolved. Texts are written later, if at all.</summary>
internal sealed class Gaps
{
    private static readonly int Bases = Enum.GetValues<AssumptionBasis>().Length;

    private readonly ulong[] _byBasis = new ulong[Bases];

    public List<NotUnderstood>? NotUnderstood { get; private set; }

    /// <summary>The basis of a filled field, or null when the record gives it.</summary>
    public AssumptionBasis? BasisOf(ResolvedField field)
    {
        for (var b = 0; b < _byBasis.Length; b++)
        {
            if ((_byBasis[b] & Bit(field)) != 0)
                return (AssumptionBasis)b;
        }

        return null;
    }

    public void Assume(ResolvedField field, AssumptionBasis basis)
    {
        Give(field);
        _byBasis[(int)basis] |= Bit(field);
    }

    public void Give(ResolvedField field)
    {
        foreach (ref var mask in _byBasis.AsSpan())
            mask &= ~Bit(field);
    }

    public void Miss(ResolvedField field, string text) => (NotUnderstood ??= []).Add(new(field, text));

    /// <summary>Record, then profile, then default.</summary>
    public T Pick<T>(ResolvedField field, T? given, T? profile, T? byDefault)
        where T : struct
    {
        if (given is { } g)
            return g;
        Assume(field, profile is null ? AssumptionBasis.Default : AssumptionBasis.Profile);
        return profile ?? byDefault ?? default;
    }

    /// <summary>Record, then the harsher of profile and setting if the settings differ, else profile, then setting.</summary>
    public double Harsher(ResolvedField field, double? given, double? profile, double setting, in SettingMerge merge, bool lowIsHarsh)
    {
        if (given is { } g)
            return g;
        var settingIsHarsher = profile is not { } p || (merge.Differs && (lowIsHarsh ? setting < p : setting > p));
        Assume(field, settingIsHarsher ? AssumptionBasis.Setting : AssumptionBasis.Profile);
        return settingIsHarsher ? setting : profile!.Value;
    }

    /// <summary>The same for counts.</summary>
    public int Harsher(ResolvedField field, int? given, int? profile, int setting, in SettingMerge merge) =>
        (int)Harsher(field, (double?)given, profile, setting, merge, false);

    /// <summary>The same for degrees.</summary>
    public Level Harsher(ResolvedField field, Level? given, Level? profile, Level setting, in SettingMerge merge) =>
        (Level)(int)Harsher(field, (double?)(int?)given, (double?)(int?)profile, (int)setting, merge, false);

    /// <summary>The same for yes and no, where yes is harsher.</summary>
    public bool Harsher(ResolvedField field, bool? given, bool? profile, bool setting, in SettingMerge merge) =>
        Harsher(field, Number(given), Number(profile), setting ? 1 : 0, merge, false) > 0;

    private static double? Number(bool? b) => b is null ? null : b.Value ? 1 : 0;

    private static ulong Bit(ResolvedField field) => 1UL << (int)field;
}

/// <summary>Whether the record puts the asset into other surroundings than its profile has in mind.</summary>
/// <param name="Differs">Then the profile's figures only count where they are harsher.</param>
internal readonly record struct SettingMerge(bool Differs);
