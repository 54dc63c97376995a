using System.Text.Json;
using TagService.Domain.Registers;
using TagService.Intake.Registers;
using TagService.Storage.Registers;

namespace TagService.Worker.Registers;

/// <summary>A stored source that this program version cannot use. Sources are checked before they are stored, so this needs another version or a hand in the database.</summary>
internal sealed class RegisterSettingsException(string message, Exception? innerException = null) : Exception(message, innerException)
{
    /// <summary>The source of a run, ready to be read.</summary>
    /// <exception cref="RegisterSettingsException">It cannot be used.</exception>
    public static (RegisterSource Source, RowMapper Mapper, IRegisterReader Reader) Open(RegisterSyncClaim claim, RegisterReaders readers)
    {
        try
        {
            var source = RegisterSourceJson.Read(claim.Settings);
            return source.Mapping.Compile() switch
            {
                MappingCompilation.Usable usable => (source, usable.Mapper, readers.Open(source)),
                MappingCompilation.Unusable unusable => throw new RegisterSettingsException(
                    $"The mapping of {claim.SourceName} cannot be used: {unusable.Issues[0].Pointer}: {unusable.Issues[0].Detail}"),
                _ => throw new InvalidOperationException("Not a known outcome."),
            };
        }
        catch (Exception e) when (e is JsonException or ArgumentException)
        {
            throw new RegisterSettingsException($"The settings of {claim.SourceName} cannot be used: {e.Message}", e);
        }
    }
}
