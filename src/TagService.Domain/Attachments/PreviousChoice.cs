namespace TagService.Domain.Attachments;

/// <summary>Which attachment a new one ends.</summary>
internal static class PreviousChoice
{
    /// <summary>Chooses; the refusal when none, or no single one, can be meant.</summary>
    /// <param name="ledger">What is recorded.</param>
    /// <param name="attachment">The new attachment.</param>
    /// <param name="previous">What the caller said.</param>
    /// <param name="chosen">The one to end; null with a refusal.</param>
    public static AttachmentRefusal? Of(AttachmentLedger ledger, Attachment attachment, PreviousEnd previous, out Attachment? chosen)
    {
        var ofTag = ledger.HistoryOf(attachment.Tag).Open;
        var ofAsset = ledger.OpenOn(attachment.AssetId);
        chosen = previous.AttachmentId is { } id
            ? ofAsset.Append(ofTag).FirstOrDefault(a => a?.Id == id)
            : ofTag ?? (ofAsset.Count == 1 ? ofAsset[0] : null);
        if (chosen is not null)
            return null;
        Attachment[] possible = ofTag is null ? [.. ofAsset] : [ofTag, .. ofAsset.Where(a => a.Id != ofTag.Id)];
        var ids = string.Join(", ", possible.Select(a => $"{a.Id} ({a.Tag} on {a.AssetId})"));
        var accepted = possible.Length == 0 ? "no endPrevious" : $"one of {ids}";
        if (previous.AttachmentId is { } unknown)
        {
            return new AttachmentRefusal.NotOne(
                "endPreviousAttachmentId", unknown.ToString(), "No open attachment of this tag or on this asset has this id.", accepted, possible);
        }

        return possible.Length == 0
            ? new AttachmentRefusal.NotOne("endPreviousReason", previous.ReasonId, "There is no open attachment of this tag or on this asset to end.", accepted, possible)
            : new AttachmentRefusal.NotOne("endPreviousAttachmentId", null, $"{possible.Length} open attachments could be meant.", accepted, possible);
    }
}
