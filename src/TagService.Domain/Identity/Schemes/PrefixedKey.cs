using System.Globalization;

namespace TagService.Domain.Identity.Schemes;

/// <summary>A key of variable length cut behind its company prefix.</summary>
internal static class PrefixedKey
{
    /// <summary>Cuts, or says why it cannot be cut there.</summary>
    public static Refusal? Split(in EpcContent content, PartitionTable table, out PartitionRow row, out ulong prefix, out string reference)
    {
        prefix = 0;
        reference = "";
        if (table.Find(content.CompanyPrefixLength, out row) is { } refusal)
            return refusal;
        var value = content.Key.Primary!;
        if (value.Length <= row.PrefixDigits
            || !ulong.TryParse(value.AsSpan(0, row.PrefixDigits), NumberStyles.None, CultureInfo.InvariantCulture, out prefix))
        {
            return new("companyPrefix", value[..Math.Min(value.Length, row.PrefixDigits)], "The key does not begin with a company prefix of this length and a reference behind it.",
                string.Create(CultureInfo.InvariantCulture, $"{row.PrefixDigits} digits and at least one character"));
        }

        reference = value[row.PrefixDigits..];
        return null;
    }
}
