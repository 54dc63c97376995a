using TagService.Storage.Schema;

namespace TagService.Api.Features.Health;

/// <summary>Ready when the database answers and this program can work on it.</summary>
internal sealed class DatabaseReadiness(DatabaseStateReader reader) : IReadinessCheck
{
    public string Name => "database";

    public async Task<string?> WhyNotAsync(CancellationToken cancellationToken)
    {
        var state = await reader.ReadAsync(cancellationToken);
        return state.IsUsable ? null : Described(state);
    }

    // The explanation may repeat host names and the server's own words: those are for the log, and whoever runs the service reads it there.
    private static string Described(DatabaseState state) => state.Condition switch
    {
        DatabaseCondition.Unreachable => "does not answer.",
        DatabaseCondition.UnsupportedServer => "is of an unsupported version.",
        DatabaseCondition.Empty or DatabaseCondition.Older => "its migrations have not run; run the verb migrate.",
        _ => "cannot be used.",
    };
}
