using TagService.Domain.Recommendations;
using TagService.Domain.Reference;

namespace TagService.Domain.Profiles;

/// <summary>What each kind of surroundings brings with it.</summary>
public static class Settings
{
    /// <summary>All rows, by the name of the setting.</summary>
    public static ReferenceTable<SettingRow> Table { get; } = new("settings.data.json", s => s.Setting.ToString());

    private static readonly SettingRow[] BySetting = [.. Enum.GetValues<Setting>().Select(s => Table[s.ToString()])];

    /// <summary>The row of a setting.</summary>
    /// <param name="setting">A defined setting.</param>
    public static SettingRow Of(Setting setting) => BySetting[(int)setting];
}
