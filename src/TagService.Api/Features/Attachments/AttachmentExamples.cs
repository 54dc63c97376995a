using TagService.Domain.Attachments;
using TagService.Domain.Recommendations;

namespace TagService.Api.Features.Attachments;

/// <summary>Examples of the contract; assets and identities are invented.</summary>
internal static class AttachmentExamples
{
    private static readonly DateTimeOffset Fitted = new(2026, 5, 4, 9, 40, 0, TimeSpan.Zero);

    public static StartAttachmentRequest Start { get; } = new()
    {
        Identity = "3476451FD40000000000002A", TidHex = "E2801160200073C5A1B20A3D", TagClassId = "hard-metal-mount-large", AttachmentMethod = "screws", StartAt = Fitted,
        LabourMinutes = 7.5, TagBatchId = "B-2026-03", FitterId = "f-17", AnsweredAtM = 4, CheckEirpDbm = 30, CheckRegion = "eu", CheckReaderKind = ReaderKind.Handheld,
        PhotoReference = "https://photos.example/2026/05/EW-PMC-00001.jpg", EndPrevious = new() { Reason = "damaged", At = Fitted },
    };

    public static AttachmentResponse Open { get; } = new()
    {
        Id = new("019df2a1-0a00-7b52-9c6e-2f8d1f4f6a10"), AssetId = "EW-PMC-00001", Identity = TagIdentityReader.Read(Start.Identity, null, "", out _)!.Identity, EpcHex = Start.Identity,
        TidHex = Start.TidHex, TagClassId = Start.TagClassId, AttachmentMethod = Start.AttachmentMethod, StartAt = Fitted, TakenOver = false,
        RecordedAt = Fitted.AddMinutes(2), LabourMinutes = Start.LabourMinutes, TagBatchId = Start.TagBatchId, AnsweredAtM = 4, CheckEirpDbm = 30, CheckRegion = "eu",
        CheckReaderKind = ReaderKind.Handheld, PhotoReference = Start.PhotoReference, ETag = "\"2f1\"",
    };

    public static AttachmentPatchRequest Patch { get; } = new() { EndReason = "damaged", EndAt = Fitted };

    public static AttachmentResponse Ended { get; } = new()
    {
        Id = new("0196a3c4-5400-7d11-8a41-7be9a3b0c955"), AssetId = "EW-PMC-00001", Identity = TagIdentityReader.Read("3476451FD400000000000007", null, "", out _)!.Identity,
        EpcHex = "3476451FD400000000000007", StartNotAfter = new(2025, 5, 6, 0, 0, 0, TimeSpan.Zero), EndAt = Fitted, EndReason = "damaged", EndKind = EndKind.Failure,
        TakenOver = true, RecordedAt = new(2025, 5, 6, 8, 0, 0, TimeSpan.Zero), ETag = "\"2f0\"",
    };

    public static AttachmentLineRequest[] Lines { get; } =
    [
        new() { Identity = "3476451FD400000000000101", AssetId = "EW-PMC-00002", TakenOver = true },
        new() { Identity = "3476451FD40000000000002A", AssetId = "EW-PMC-00001", StartAt = Fitted, AttachmentMethod = "screws", LabourMinutes = 7.5, EndPreviousReason = "damaged", EndPreviousAt = Fitted },
        new() { Identity = "3476451FD400000000000102", AssetId = "EW-PMC-00003", EndReason = "fell-off", EndNotBefore = Fitted.AddDays(-30), EndNotAfter = Fitted },
    ];

    /// <summary>The same in CSV.</summary>
    public const string Csv =
        "identity,assetId,takenOver,startAt,attachmentMethod,labourMinutes,endReason,endNotBefore,endNotAfter,endPreviousReason,endPreviousAt\r\n"
        + "3476451FD400000000000101,EW-PMC-00002,true,,,,,,,,\r\n"
        + "3476451FD40000000000002A,EW-PMC-00001,,2026-05-04T09:40:00Z,screws,7.5,,,,damaged,2026-05-04T09:40:00Z\r\n"
        + "3476451FD400000000000102,EW-PMC-00003,,,,,fell-off,2026-04-04T09:40:00Z,2026-05-04T09:40:00Z,,\r\n";

    public static AttachmentLineResponse[] Answers { get; } =
    [
        new() { Line = 1, Result = AttachmentLineResult.Started, AttachmentId = new("019df2a1-0a01-7b52-9c6e-2f8d1f4f6a11") },
        new() { Line = 2, Result = AttachmentLineResult.Started, AttachmentId = Open.Id, PreviousId = Ended.Id },
        new() { Line = 3, Result = AttachmentLineResult.Ended, AttachmentId = new("019df2a1-0a02-7b52-9c6e-2f8d1f4f6a12") },
        new() { Summary = new(Lines: 3, Started: 2, Ended: 1, Known: 0, Refused: 0) },
    ];
}
