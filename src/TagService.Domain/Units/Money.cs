namespace TagService.Domain.Units;

/// <summary>An amount with its ISO 4217 code. Amounts in different currencies are never added or converted.</summary>
public readonly record struct Money(decimal Amount, string Currency)
{
    /// <summary>Sum of two amounts in the same currency.</summary>
    /// <exception cref="InvalidOperationException">The currencies differ.</exception>
    public static Money operator +(Money a, Money b) =>
        a.Currency == b.Currency
            ? new(a.Amount + b.Amount, a.Currency)
            : throw new InvalidOperationException($"{a.Currency} and {b.Currency} cannot be added.");

    /// <summary>Amount with two decimals and its code.</summary>
    public override string ToString() => FormattableString.Invariant($"{Amount:0.00} {Currency}");
}
