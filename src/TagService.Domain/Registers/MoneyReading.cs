namespace TagService.Domain.Registers;

/// <summary>Amounts with or without a currency; nothing is ever converted between currencies.</summary>
internal static class MoneyReading
{
    public static ReadValue Read(in RegisterValue value, CompiledRow row)
    {
        var text = value.Text.Trim();
        var (number, mark) = Split(text);
        string? currency = row.Row.Currency;
        if (mark.Length > 0)
        {
            if (CurrencyOf(mark) is not { } stated)
                return ReadValue.Not($"\"{MappingTexts.Quote(mark)}\" is no currency code with one meaning.");
            if (currency is not null && currency != stated)
                return ReadValue.Not($"It is in {stated}, the mapping says {currency}; amounts are not converted.");
            currency = stated;
        }

        var plain = value.Kind == RegisterValueKind.Number ? DecimalMark.Point : row.Row.DecimalMark;
        return NumberText.Parse(number, plain, out var amount) switch
        {
            NumberOutcome.Ambiguous => ReadValue.Not("It can be an amount with decimals or with thousands; state the decimal mark in the mapping."),
            NumberOutcome.NotANumber => ReadValue.Not("It is no amount."),
            _ => ValueReading.InRange((double)amount, row.Target) with { Currency = currency },
        };
    }

    /// <summary>An ISO 4217 code of three letters or a sign that stands for one currency only; null for "$" and the like.</summary>
    public static string? CurrencyOf(string text) => text.Trim() switch
    {
        "€" => "EUR",
        "£" => "GBP",
        { Length: 3 } code when code.All(char.IsAsciiLetter) => code.ToUpperInvariant(),
        _ => null,
    };

    private static (string Number, string Mark) Split(string text)
    {
        var first = text.AsSpan().IndexOfAnyInRange('0', '9');
        var last = text.AsSpan().LastIndexOfAnyInRange('0', '9');
        if (first < 0)
            return ("", text);
        // A sign or a leading decimal mark belongs to the number.
        while (first > 0 && text[first - 1] is ('-' or '−' or '+' or '.' or ','))
            first--;
        var before = text[..first].Trim();
        var behind = text[(last + 1)..].Trim();
        return before.Length > 0 && behind.Length > 0 ? ("", text) : (text[first..(last + 1)], before + behind);
    }
}
