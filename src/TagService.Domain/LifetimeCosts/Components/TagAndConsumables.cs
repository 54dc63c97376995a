using TagService.Domain.Words;

namespace TagService.Domain.LifetimeCosts.Components;

/// <summary>The first tag and what is used up to put it on, at t = 0.</summary>
public sealed class TagAndConsumables : ICostComponent
{
    /// <inheritdoc />
    public string Id => "tag-and-consumables";

    /// <inheritdoc />
    public string Name => "Tag and consumables";

    /// <inheritdoc />
    public double PresentValue(in CostCase c) =>
        c.TagPrice + c.ConsumablesPrice;

    /// <inheritdoc />
    public string Working(in CostCase c) =>
        InvariantText.Of($"tag {c.TagPrice:0.00} + consumables {c.ConsumablesPrice:0.00}");
}
