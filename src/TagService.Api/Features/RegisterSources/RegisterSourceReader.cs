using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.Extensions.Options;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.Registers;
using TagService.Intake.Registers;
using TagService.Intake.Registers.Files;
using TagService.Intake.Registers.Http;

namespace TagService.Api.Features.RegisterSources;

/// <summary>Turns what was sent into a source, and says all that is wrong with it at once.</summary>
internal sealed class RegisterSourceReader(IOptions<RegisterOutboundOptions> outbound, IOptions<RegisterFileOptions> files)
{
    private const int MostErrors = 100;

    /// <summary>The source, or the problem with every wrong place.</summary>
    /// <param name="sent">What was sent.</param>
    /// <param name="at">Where it stands in the body: # or a member.</param>
    public (RegisterSource? Source, ApiProblem? Problem) Read(RegisterSourceRequest sent, string at = "#")
    {
        var errors = new List<ProblemError>(NulErrors(JsonSerializer.SerializeToNode(sent, WireJson.Options), at));
        var source = RegisterSourceMapping.ToSource(sent);
        errors.AddRange(KindErrors(sent.Http, sent.Csv, sent.Spreadsheet, at, "The source has no register to read from."));
        errors.AddRange(ReadingErrors(sent.Http, source.Http, (FileRegisterOptions?)source.Csv ?? source.Spreadsheet, source.Csv is null ? "spreadsheet" : "csv", at, sent.Csv ?? (object?)sent.Spreadsheet));
        errors.AddRange(MappingErrors(sent.Mapping, source.Mapping, at));
        return errors.Count == 0 ? (source, null) : (null, ProblemOf(errors));
    }

    /// <summary>What is wrong with a mapping alone.</summary>
    public static (RowMapper? Mapper, ApiProblem? Problem) ReadMapping(RegisterMappingRequest sent, string at)
    {
        var mapping = RegisterSourceMapping.ToMapping(sent);
        var errors = NulErrors(JsonSerializer.SerializeToNode(sent, WireJson.Options), at + "/mapping").Concat(MappingErrors(sent, mapping, at)).ToList();
        return errors.Count == 0 && mapping.Compile() is MappingCompilation.Usable usable ? (usable.Mapper, null) : (null, ProblemOf(errors));
    }

    /// <summary>What is wrong with the part of a source that says how it is read.</summary>
    public (RegisterSource? Source, ApiProblem? Problem) ReadReading(RegisterReadingRequest sent, string at)
    {
        var errors = new List<ProblemError>(NulErrors(JsonSerializer.SerializeToNode(sent, WireJson.Options), at));
        errors.AddRange(KindErrors(sent.Http, sent.Csv, sent.Spreadsheet, at, "There is no register to read from."));
        var source = RegisterSourceMapping.ToSource(new() { Http = sent.Http, Csv = sent.Csv, Spreadsheet = sent.Spreadsheet, Mapping = new() { Rows = [] } });
        errors.AddRange(ReadingErrors(sent.Http, source.Http, (FileRegisterOptions?)source.Csv ?? source.Spreadsheet, source.Csv is null ? "spreadsheet" : "csv", at, sent.Csv ?? (object?)sent.Spreadsheet));
        return errors.Count == 0 ? (source, null) : (null, ProblemOf(errors));
    }

    /// <summary>Why a stored source cannot be read with the operator's present configuration, or null.</summary>
    public IReadOnlyList<ProblemError>? Fault(RegisterSource source)
    {
        var http = source.Http is { } h ? RegisterSourceMapping.OfHttp(h) : null;
        var file = (FileRegisterOptions?)source.Csv ?? source.Spreadsheet;
        object? sent = source.Csv is { } c ? RegisterSourceMapping.OfCsv(c) : source.Spreadsheet is { } s ? RegisterSourceMapping.OfSpreadsheet(s) : null;
        ProblemError[] errors = [.. ReadingErrors(http, source.Http, file, source.Csv is null ? "spreadsheet" : "csv", "#", sent)];
        return errors.Length == 0 ? null : errors;
    }

    private static IEnumerable<ProblemError> KindErrors(HttpSourceRequest? http, CsvSourceRequest? csv, SpreadsheetSourceRequest? spreadsheet, string at, string none)
    {
        var kinds = new[] { (Name: "http", Is: http is not null), (Name: "csv", Is: csv is not null), (Name: "spreadsheet", Is: spreadsheet is not null) }.Where(k => k.Is).Select(k => k.Name).ToArray();
        if (kinds.Length == 0)
            yield return new(at, null, none, "exactly one of http, csv and spreadsheet");
        foreach (var kind in kinds.Length > 1 ? kinds : [])
            yield return new($"{at}/{kind}", null, $"The source has {kinds.Length} kinds: {string.Join(", ", kinds)}.", "exactly one of http, csv and spreadsheet");
    }

    private IEnumerable<ProblemError> ReadingErrors(
        HttpSourceRequest? sentHttp, HttpRegisterOptions? http, FileRegisterOptions? file, string fileKind, string at, object? sentFile)
    {
        if (http is not null)
        {
            var node = JsonSerializer.SerializeToNode(sentHttp, WireJson.Options);
            foreach (var issue in HttpRegisterCheck.Issues(http))
                yield return Error(issue with { Pointer = issue.Pointer == "/changedSinceOverlap" ? "/changedSinceOverlapMinutes" : issue.Pointer }, $"{at}/http", node);
            if (CredentialError(http, at) is { } wrong)
                yield return wrong;
        }

        if (file is not null)
        {
            var node = JsonSerializer.SerializeToNode(sentFile, sentFile!.GetType(), WireJson.Options);
            foreach (var issue in FileRegisterCheck.Issues(file, files.Value.Folders.Keys.Order(StringComparer.Ordinal)))
                yield return Error(issue, $"{at}/{fileKind}", node);
        }
    }

    private ProblemError? CredentialError(HttpRegisterOptions http, string at)
    {
        if (http.CredentialName is not { } name)
            return null;
        var known = outbound.Value.Credentials;
        if (!known.TryGetValue(name, out var credential))
        {
            return new(
                $"{at}/http/credentialName", JsonText.Clip(name), "There is no credential of this name in the configuration.",
                known.Count == 0 ? "none is configured" : string.Join(", ", known.Keys.Order(StringComparer.Ordinal)));
        }

        // The operator says where a secret may go; a source that points elsewhere would only fail later.
        return http.Address.IsAbsoluteUri && Uri.TryCreate(credential.Origin, UriKind.Absolute, out var origin) && OriginOf(origin) != OriginOf(http.Address)
            ? new($"{at}/http/address", JsonText.Clip(OriginOf(http.Address)), $"The credential {name} may not be sent there.", $"an address at {OriginOf(origin)}, or another credential")
            : null;
    }

    private static string OriginOf(Uri address) => address.GetLeftPart(UriPartial.Authority);

    private static IEnumerable<ProblemError> MappingErrors(RegisterMappingRequest sent, RegisterMapping mapping, string at)
    {
        if (mapping.Compile() is not MappingCompilation.Unusable unusable)
            return [];
        var node = JsonSerializer.SerializeToNode(sent, WireJson.Options);
        return unusable.Issues.Select(i => Error(i, $"{at}/mapping", node));
    }

    private static ProblemError Error(MappingIssue issue, string at, JsonNode? sent) => new(
        at + issue.Pointer, (issue.Value ?? ValueAt(sent, issue.Pointer)) is { } value ? JsonText.Clip(value) : null, issue.Detail, issue.Accepted);

    private static string? ValueAt(JsonNode? node, string pointer)
    {
        foreach (var token in JsonPointers.Tokens(pointer))
        {
            node = node switch
            {
                JsonObject members => members[token],
                JsonArray items when int.TryParse(token, NumberStyles.None, CultureInfo.InvariantCulture, out var i) && i < items.Count => items[i],
                _ => null,
            };
        }

        return node is JsonValue ? node.ToString() : null;
    }

    // The database keeps no NUL characters in JSON.
    private static IEnumerable<ProblemError> NulErrors(JsonNode? node, string at) => node switch
    {
        JsonObject members => members.SelectMany(m => m.Key.Contains('\0', StringComparison.Ordinal) ? [NulError(at, m.Key)] : NulErrors(m.Value, $"{at}/{JsonPointers.Escape(m.Key)}")),
        JsonArray items => items.SelectMany((item, i) => NulErrors(item, string.Create(CultureInfo.InvariantCulture, $"{at}/{i}"))),
        JsonValue value when value.TryGetValue<string>(out var text) && text.Contains('\0', StringComparison.Ordinal) => [NulError(at, text)],
        _ => [],
    };

    private static ProblemError NulError(string at, string text) => new(at, JsonText.Clip(text), "It holds a NUL character.", "text without NUL characters");

    private static ApiProblem ProblemOf(List<ProblemError> errors)
    {
        var more = errors.Count - MostErrors;
        return new(
            ProblemTypes.InvalidFields,
            string.Create(CultureInfo.InvariantCulture, $"The source cannot be used; {errors.Count} {(errors.Count == 1 ? "place is" : "places are")} wrong.{(more > 0 ? $" The first {MostErrors} are listed." : "")}"),
            [.. errors.Take(MostErrors)]);
    }
}
