using Microsoft.Net.Http.Headers;
using TagService.Api.Http;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.TagClasses;
using TagService.Storage.Queries;
using TagService.Storage.Recommendations;
using TagService.Storage.Tables;

namespace TagService.Api.Features.TagBatches;

/// <summary>From the wire to the tables and back.</summary>
internal static class TagBatchMapping
{
    private const int PriceDecimals = 4;

    // Invented: nobody's delivery.
    public static TagBatchRequest ExampleRequest { get; } = new()
    {
        TagClassId = "hard-metal-mount-large", SupplierLot = "L-0417 / 3", Quantity = 500, Price = 3.4m, Currency = "EUR", ReceivedOn = new(2026, 4, 17),
        EpcScheme = "GIAI-96", EpcPrefix = "9521141",
    };

    public static TagBatchResponse Example { get; } =
        RowOf("2026-04-plates", ExampleRequest, ExampleRequest.TagClassId, new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero))
            .ToResponse(new(Fitted: 212, Attachments: 214, OpenNow: 203, Failed: 6, Removed: 4, NotKnown: 1));

    public static ApiProblem NotFound() => ApiProblem.NotFound("No tag batch has this id; /v1/tag-batches lists them all.");

    /// <summary>The class as the catalogue writes its id, or the problem.</summary>
    public static (TagClass? TagClass, ApiProblem? Problem) Check(TagBatchRequest wanted, CatalogueSnapshot catalogue)
    {
        if (catalogue.Find(wanted.TagClassId) is not { } tagClass)
        {
            var near = NearestName.Of(wanted.TagClassId, catalogue.Context.Classes.Select(c => c.Id));
            return (null, new(
                ProblemTypes.InvalidFields, "tagClassId names no tag class.",
                [new("#/tagClassId", JsonText.Clip(wanted.TagClassId), "No tag class has this id.", near is null ? "an id of /v1/tag-classes" : $"an id of /v1/tag-classes; perhaps {near}")]));
        }

        return wanted.Price is null == wanted.Currency is null ? (tagClass, null) : (null, ApiProblem.Contradictory(
            "A price needs its currency, and a currency its price.",
            new ProblemError("#/price", wanted.Price?.ToString(System.Globalization.CultureInfo.InvariantCulture), "Belongs together with currency."),
            new ProblemError("#/currency", wanted.Currency, "Belongs together with price.")));
    }

    public static void Apply(this TagBatchRow row, TagBatchRequest wanted, string tagClassId)
    {
        (row.TagClassId, row.SupplierLot, row.Quantity, row.ReceivedOn) = (tagClassId, wanted.SupplierLot, wanted.Quantity, wanted.ReceivedOn);
        // As the column keeps it, so that what is answered now is what is read later.
        row.Price = wanted.Price is { } price ? Math.Round(price, PriceDecimals) + 0.0000m : null;
        (row.Currency, row.EpcScheme, row.EpcPrefix, row.Note) = (wanted.Currency, wanted.EpcScheme, wanted.EpcPrefix, wanted.Note);
    }

    public static TagBatchRow RowOf(string id, TagBatchRequest wanted, string tagClassId, DateTimeOffset now)
    {
        var row = new TagBatchRow { Id = id, TagClassId = tagClassId, UpdatedAt = now };
        row.Apply(wanted, tagClassId);
        return row;
    }

    /// <summary>Validator of a batch with what became of its tags.</summary>
    public static EntityTagHeaderValue TagOf(TagBatchRow row, TagBatchUse use) => TwoPartTag.Of(row.Version, (uint)(use.OpenNow + (31 * (use.Fitted + (31 * (use.Attachments + (31 * (use.Failed + (31 * use.Removed)))))))));

    public static TagBatchResponse ToResponse(this TagBatchRow row, TagBatchUse use) => new(
        row.Id, row.TagClassId, row.SupplierLot, row.Quantity, row.Price, row.Currency, row.ReceivedOn, row.EpcScheme, row.EpcPrefix, row.Note, row.UpdatedAt,
        new(row.Quantity, use.Fitted, row.Quantity - use.Fitted, use.Attachments, use.OpenNow, use.Failed, use.Removed, use.NotKnown));
}
