using Microsoft.EntityFrameworkCore;
using TagService.Api.Http;
using TagService.Api.Http.Problems;
using TagService.Intake.Registers;
using TagService.Storage;
using TagService.Storage.Bulk;
using TagService.Storage.Tables;

namespace TagService.Api.Features.RegisterSources;

/// <summary>Writes the row of a source; the same for requests and for the operator's configuration.</summary>
internal static class RegisterSourceStore
{
    private static readonly string[] Reserved = [AssetSources.Push, AssetSources.Demo, AssetSources.Attachments, AssetSources.Unknown];

    /// <summary>Names that say where assets come from if not from a register.</summary>
    public static ApiProblem? NameRefusal(string name) => Reserved.Contains(name)
        ? new(ProblemTypes.InvalidRequest, $"A register source cannot be called {name}: assets that come from no register carry this as their source. Accepted: any name but {string.Join(", ", Reserved)}.")
        : null;

    /// <summary>New or replaced; a row that says the same already is not touched.</summary>
    public static async Task<RegisterSourceRow> WriteAsync(
        TagServiceDbContext database, RegisterSourceRow? row, string name, RegisterSourceRequest wanted, RegisterSource source, bool isFromConfiguration, TimeProvider clock,
        CancellationToken cancellationToken)
    {
        var (settings, hash) = (RegisterSourceJson.Write(source), RegisterSourceJson.HashOf(source));
        if (row is null)
        {
            row = new()
            {
                Name = name, Settings = settings, SettingsHash = hash, IsEnabled = wanted.Enabled, EveryMinutes = wanted.EveryMinutes, IsFromConfiguration = isFromConfiguration,
                UpdatedAt = default,
            };
            database.Add(row);
        }
        else if (row.SettingsHash != hash)
        {
            // The column keeps another spelling of the same JSON: only the hash tells whether it differs.
            (row.Settings, row.SettingsHash) = (settings, hash);
        }

        (row.IsEnabled, row.EveryMinutes, row.IsFromConfiguration) = (wanted.Enabled, wanted.EveryMinutes, isFromConfiguration);
        if (database.ChangeTracker.HasChanges())
            row.UpdatedAt = StoredTime.Now(clock);
        await database.SaveChangesAsync(cancellationToken);
        return row;
    }

    /// <summary>What the operator's configuration holds is changed there.</summary>
    public static ApiProblem FromConfiguration(string name) => new(
        ProblemTypes.Conflict, $"The source {name} comes from the operator's configuration (Registers:Sources:{name}) and is read-only here. Change it there and start the service anew.");

    public static Task<RegisterSourceRow?> FindAsync(TagServiceDbContext database, string name, CancellationToken cancellationToken) =>
        database.RegisterSources.SingleOrDefaultAsync(s => s.Name == name, cancellationToken);
}
