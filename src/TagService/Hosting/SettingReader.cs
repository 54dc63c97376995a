using System.Globalization;
using TagService.LocalDatabase;

namespace TagService.Hosting;

/// <summary>Reads single settings and refuses bad values in one form of words.</summary>
internal sealed class SettingReader(IConfiguration configuration)
{
    public static StartupProblemException Refuse(string name, string value, string accepted) =>
        new($"Setting {name} is \"{value}\".", $"Accepted for {name}: {accepted}.");

    /// <summary>The value, or null when absent or blank.</summary>
    public string? Text(string name) => configuration[name] is { } text && !string.IsNullOrWhiteSpace(text) ? text.Trim() : null;

    public int? Number(string name, int least, int most)
    {
        if (Text(name) is not { } text)
            return null;
        return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number >= least && number <= most
            ? number
            : throw Refuse(name, text, $"a whole number from {least} to {most}");
    }

    /// <summary>One of the words, whatever its case; the first when absent.</summary>
    public string OneOf(string name, params string[] accepted)
    {
        if (Text(name) is not { } text)
            return accepted[0];
        return accepted.FirstOrDefault(a => a.Equals(text, StringComparison.OrdinalIgnoreCase))
            ?? throw Refuse(name, text, string.Join(", ", accepted));
    }
}
