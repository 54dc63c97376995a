using TagService.Api.Http.Problems;
using TagService.Domain.Registers;
using TagService.Intake.Registers;
using TagService.Intake.Registers.Files;
using TagService.Intake.Registers.Http;
using TagService.Storage.Queries;
using TagService.Storage.Tables;

namespace TagService.Api.Features.RegisterSources;

/// <summary>From the wire to sources and back.</summary>
internal static class RegisterSourceMapping
{
    private static readonly Uri NoAddress = new("none", UriKind.Relative);

    public static ApiProblem NotFound() => ApiProblem.NotFound("No register source has this name; /v1/register-sources lists them all.");

    public static RegisterSource ToSource(RegisterSourceRequest r) => new()
    {
        Http = r.Http is { } h ? ToHttp(h) : null,
        Csv = r.Csv is { } c ? ToCsv(c) : null,
        Spreadsheet = r.Spreadsheet is { } s ? ToSpreadsheet(s) : null,
        Mapping = ToMapping(r.Mapping), TagAuthority = r.TagAuthority, WhenMissing = r.WhenMissing, MostMissingShare = r.MostMissingShare,
        FullPassEveryHours = r.FullPassEveryHours,
    };

    public static RegisterMapping ToMapping(RegisterMappingRequest m)
    {
        var mapping = new RegisterMapping { Rows = [.. m.Rows.Select(ToRow)], NotKept = m.NotKept ?? [] };
        return m.EmptyTexts is { } empty ? mapping with { EmptyTexts = empty } : mapping;
    }

    public static RegisterMappingRequest OfMapping(RegisterMapping m) => new()
    {
        Rows = [.. m.Rows.Select(OfRow)], NotKept = m.NotKept.Count == 0 ? null : m.NotKept, EmptyTexts = m.EmptyTexts,
    };

    public static MappingRowRequest OfRow(MappingRow r) => new()
    {
        Target = r.Target, Source = r.Source, Unit = r.Unit, DecimalMark = r.DecimalMark, DateOrder = r.DateOrder, Currency = r.Currency, ListSeparators = r.ListSeparators,
        ValueTable = r.ValueTable.Count == 0 ? null : r.ValueTable, Default = r.Default, EmptyClears = r.EmptyClears, WhenNotUnderstood = r.WhenNotUnderstood,
    };

    public static RegisterSourceResponse ToResponse(this StoredRegisterSource stored)
    {
        var (row, source) = (stored.Source, RegisterSourceJson.Read(stored.Source.Settings));
        return new(
            row.Name, source.Http is { } h ? OfHttp(h) : null, source.Csv is { } c ? OfCsv(c) : null, source.Spreadsheet is { } s ? OfSpreadsheet(s) : null,
            OfMapping(source.Mapping), row.IsEnabled, row.EveryMinutes, source.TagAuthority, source.WhenMissing, source.MostMissingShare, source.FullPassEveryHours,
            row.IsFromConfiguration, row.UpdatedAt, new(stored.Listed, stored.LastRun is { } run ? OfRun(run) : null, NextRunDue(row, stored.LastRun)));
    }

    private static LastRunResponse OfRun(RegisterSyncRow run) =>
        new(run.Id, run.State, run.RequestedAt, run.EndedAt, run.Rows, run.Refused, run.ReasonCode, run.ReasonDetail);

    // As the schedule of the worker counts.
    private static DateTimeOffset? NextRunDue(RegisterSourceRow row, RegisterSyncRow? last) =>
        !row.IsEnabled || row.EveryMinutes is not { } minutes || last is { State: RegisterSyncState.Waiting or RegisterSyncState.Running }
            ? null
            : last is null ? row.UpdatedAt : last.RequestedAt.AddMinutes(minutes);

    private static MappingRow ToRow(MappingRowRequest r) => new()
    {
        Target = r.Target, Source = r.Source, Unit = r.Unit, DecimalMark = r.DecimalMark, DateOrder = r.DateOrder, Currency = r.Currency, ListSeparators = r.ListSeparators,
        ValueTable = r.ValueTable ?? new Dictionary<string, string>(), Default = r.Default, EmptyClears = r.EmptyClears, WhenNotUnderstood = r.WhenNotUnderstood,
    };

    private static HttpRegisterOptions ToHttp(HttpSourceRequest h) => new()
    {
        // What is no address at all is told by the check, as one that is not absolute.
        Address = Uri.TryCreate(h.Address, UriKind.RelativeOrAbsolute, out var address) ? address : NoAddress,
        RowsPointer = h.RowsPointer, KeyPointer = h.KeyPointer, Paging = h.Paging, CursorPointer = h.CursorPointer, CursorParameter = h.CursorParameter,
        PageParameter = h.PageParameter, FirstPage = h.FirstPage, LastPage = h.LastPage, SizeParameter = h.SizeParameter, PageSize = h.PageSize, TotalPointer = h.TotalPointer,
        ChangedSinceParameter = h.ChangedSinceParameter, ChangedSinceFormat = h.ChangedSinceFormat, ChangedSinceOverlap = TimeSpan.FromMinutes(h.ChangedSinceOverlapMinutes),
        UseETag = h.UseETag, CredentialName = h.CredentialName, MostPageBytes = h.MostPageBytes, MostRowBytes = h.MostRowBytes, MostPages = h.MostPages,
    };

    public static HttpSourceRequest OfHttp(HttpRegisterOptions h) => new()
    {
        Address = h.Address.OriginalString, RowsPointer = h.RowsPointer, KeyPointer = h.KeyPointer, Paging = h.Paging, CursorPointer = h.CursorPointer, CursorParameter = h.CursorParameter,
        PageParameter = h.PageParameter, FirstPage = h.FirstPage, LastPage = h.LastPage, SizeParameter = h.SizeParameter, PageSize = h.PageSize, TotalPointer = h.TotalPointer,
        ChangedSinceParameter = h.ChangedSinceParameter, ChangedSinceFormat = h.ChangedSinceFormat, ChangedSinceOverlapMinutes = h.ChangedSinceOverlap.TotalMinutes,
        UseETag = h.UseETag, CredentialName = h.CredentialName, MostPageBytes = h.MostPageBytes, MostRowBytes = h.MostRowBytes, MostPages = h.MostPages,
    };

    private static CsvRegisterOptions ToCsv(CsvSourceRequest f) => new()
    {
        Folder = f.Folder, Pattern = f.Pattern, Which = f.Which, HoldsChangesOnly = f.HoldsChangesOnly, RowsBeforeHeader = f.RowsBeforeHeader, ColumnNames = f.ColumnNames,
        KeyColumn = f.KeyColumn, MostColumns = f.MostColumns, Encoding = f.Encoding, Separator = f.Separator is [var c] ? c : null, MostRowCharacters = f.MostRowCharacters,
    };

    public static CsvSourceRequest OfCsv(CsvRegisterOptions f) => new()
    {
        Folder = f.Folder, Pattern = f.Pattern, Which = f.Which, HoldsChangesOnly = f.HoldsChangesOnly, RowsBeforeHeader = f.RowsBeforeHeader, ColumnNames = f.ColumnNames,
        KeyColumn = f.KeyColumn, MostColumns = f.MostColumns, Encoding = f.Encoding, Separator = f.Separator?.ToString(), MostRowCharacters = f.MostRowCharacters,
    };

    private static SpreadsheetRegisterOptions ToSpreadsheet(SpreadsheetSourceRequest f) => new()
    {
        Folder = f.Folder, Pattern = f.Pattern, Which = f.Which, HoldsChangesOnly = f.HoldsChangesOnly, RowsBeforeHeader = f.RowsBeforeHeader, ColumnNames = f.ColumnNames,
        KeyColumn = f.KeyColumn, MostColumns = f.MostColumns, Sheet = f.Sheet, MostUnpackedBytes = f.MostUnpackedBytes, MostSharedCharacters = f.MostSharedCharacters,
    };

    public static SpreadsheetSourceRequest OfSpreadsheet(SpreadsheetRegisterOptions f) => new()
    {
        Folder = f.Folder, Pattern = f.Pattern, Which = f.Which, HoldsChangesOnly = f.HoldsChangesOnly, RowsBeforeHeader = f.RowsBeforeHeader, ColumnNames = f.ColumnNames,
        KeyColumn = f.KeyColumn, MostColumns = f.MostColumns, Sheet = f.Sheet, MostUnpackedBytes = f.MostUnpackedBytes, MostSharedCharacters = f.MostSharedCharacters,
    };
}
