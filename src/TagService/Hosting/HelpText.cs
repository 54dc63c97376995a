using System.Text;

namespace TagService.Hosting;

/// <summary>What the verb help prints.</summary>
internal static class HelpText
{
    public static string All
    {
        get
        {
            var text = new StringBuilder(
                """
                TagService chooses radio-frequency tags for assets and says how far they will read.

                Usage: TagService [verb] [--option value ...]

                  (no verb)  run the service until Ctrl+C
                  migrate    bring the database up to this version, then end
                  demo       load the invented demo fleet into a database without assets, then end
                  help       this text

                Options, also in appsettings.json or the environment (ConnectionStrings__TagService):


                """);
            foreach (var setting in KnownSettings.All)
                text.Append("  --").AppendLine(setting.Name).Append("      ").AppendLine(setting.Meaning);
            return text.ToString();
        }
    }
}
