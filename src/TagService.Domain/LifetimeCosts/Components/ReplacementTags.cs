using TagService.Domain.Words;

namespace TagService.Domain.LifetimeCosts.Components;

/// <summary>Tags and consumables of all re-applications: price times the discounted renewals D(T).</summary>
public sealed class ReplacementTags : ICostComponent
{
    /// <inheritdoc />
    public string Id => "replacement-tags";

    /// <inheritdoc />
    public string Name => "Replacement tags";

    /// <inheritdoc />
    public double PresentValue(in CostCase c) =>
        (c.TagPrice + c.ConsumablesPrice) * c.DiscountedRenewals;

    /// <inheritdoc />
    public string Working(in CostCase c) =>
        InvariantText.Of($"{c.DiscountedRenewals:0.000} discounted re-applications x {c.TagPrice + c.ConsumablesPrice:0.00}");
}
