using System.Globalization;
using Microsoft.EntityFrameworkCore;
using TagService.Api.Features.Locations;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.Places;
using TagService.Storage;

namespace TagService.Api.Features.ReadPoints;

/// <summary>What makes a readable read point unusable.</summary>
internal static class ReadPointProblems
{
    private const int NamedInMessages = 5;

    public static ApiProblem NotFound() => ApiProblem.NotFound("No read point has this id; /v1/read-points lists them all.");

    /// <summary>Members that are wrong by themselves or do not go together.</summary>
    public static ApiProblem? OfMembers(ReadPointRequest wanted) =>
        LocationProblems.OfNames(wanted.Aliases ?? []) ?? ReferenceTagText.Problem(wanted.ReferenceTags ?? []) ?? OfPairs(wanted);

    /// <summary>A location that is none; a reader, an antenna or an alias that is another read point's. The places must be locked.</summary>
    public static async Task<ApiProblem?> OfPlaceAsync(TagServiceDbContext database, string id, ReadPointRequest wanted, CancellationToken cancellationToken)
    {
        if (await LocationProblems.OfReferenceAsync(database, "locationId", wanted.LocationId, cancellationToken) is { } missing)
            return missing;
        if (wanted.ReaderName is not null)
        {
            var other = await database.ReadPoints.AsNoTracking()
                .FirstOrDefaultAsync(r => r.Id != id && r.ReaderName == wanted.ReaderName && r.Antenna == wanted.Antenna, cancellationToken);
            if (other is not null)
                return PairTaken(wanted, other.Id);
        }

        var folded = (wanted.Aliases ?? []).Select(PlaceName.Fold).ToList();
        var taken = await database.ReadPointNames.AsNoTracking()
            .Where(n => n.IsAlias && n.ReadPointId != id && folded.Contains(n.Folded)).Take(NamedInMessages).ToListAsync(cancellationToken);
        return taken.Count == 0 ? null : LocationProblems.AliasesTaken(wanted.Aliases!, taken.Select(n => (n.Folded, n.ReadPointId)), "read point");
    }

    private static ApiProblem? OfPairs(ReadPointRequest wanted)
    {
        if (wanted is { Antenna: { } antenna, ReaderName: null })
        {
            return ApiProblem.Contradictory(
                "An antenna is one of a reader, and readerName is missing.",
                new ProblemError("#/antenna", Text(antenna), "Needs readerName beside it."), new ProblemError("#/readerName", null, "readerName is missing.", "the reader's name in read events"));
        }

        return wanted.SweepHours is { } hours && !wanted.Kind.InfersSweeps()
            ? ApiProblem.Contradictory(
                "Only area and cabinet read points infer sweeps: what is carried or sees things go by looks at no place all the time, so nothing follows from what it does not read.",
                new ProblemError("#/sweepHours", hours.ToString(CultureInfo.InvariantCulture), "Belongs to kinds area and cabinet only.", "no sweepHours"),
                new ProblemError("#/kind", wanted.Kind == ReadPointKind.Walked ? "walked" : "passage", "Infers no sweeps.", "area, cabinet"))
            : null;
    }

    private static ApiProblem PairTaken(ReadPointRequest wanted, string owner)
    {
        var antenna = wanted.Antenna is { } a ? $" antenna {Text(a)}" : " without antenna";
        return new(
            ProblemTypes.Conflict, $"Reader {JsonText.Clip(wanted.ReaderName!)}{antenna} is the read point {JsonText.Clip(owner)} already; a read event could not tell them apart.",
            [new("#/readerName", JsonText.Clip(wanted.ReaderName!), $"The read point {JsonText.Clip(owner)} has it.", "a pair of readerName and antenna that no other read point has")]);
    }

    private static string Text(int value) => value.ToString(CultureInfo.InvariantCulture);
}
