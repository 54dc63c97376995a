namespace TagService.Api.Http.OpenApi;

/// <summary>Groups of operations, in the order in which they are shown.</summary>
public static class ApiTags
{
    /// <summary>The main job.</summary>
    public const string Recommendations = "Recommendations";

    /// <summary>Stateless calculators.</summary>
    public const string Calculations = "Calculations";

    /// <summary>Reference tables.</summary>
    public const string ReferenceTables = "Reference tables";

    /// <summary>What tags say and what is written on them.</summary>
    public const string Identities = "Identities";

    /// <summary>Built-in and own tag classes.</summary>
    public const string TagClasses = "Tag classes";

    /// <summary>What the field has found.</summary>
    public const string RangeMeasurements = "Range measurements";

    /// <summary>The register's mirror.</summary>
    public const string Assets = "Assets";

    /// <summary>Where the mirror comes from and what goes back.</summary>
    public const string Registers = "Registers";

    /// <summary>Locations and read points.</summary>
    public const string Places = "Places";

    /// <summary>What was bought.</summary>
    public const string TagBatches = "Tag batches";

    /// <summary>Where identities come from.</summary>
    public const string NumberingRules = "Numbering rules";

    /// <summary>The audit trail.</summary>
    public const string Changes = "Changes";

    /// <summary>Which tag is or was on which asset.</summary>
    public const string Attachments = "Attachments";
    /// <summary>What fitters are told.</summary>
    public const string Fitting = "Fitting";

    /// <summary>Running the service.</summary>
    public const string Operations = "Operations";

    /// <summary>All groups with their descriptions.</summary>
    public static IReadOnlyList<(string Name, string Description)> All { get; } =
    [
        (Recommendations, "Any asset record in; ranked tag classes with expected range, attachment, life and lifetime cost out."),
        (Calculations, "The formulas behind the recommendations, without state: same inputs, same result."),
        (Identities, "EPC, TID and PC word to identity and back, by the GS1 EPC Tag Data Standard; text forms of identities."),
        (TagClasses, "Built-in classes with planning values; your own classes, prices, certificates and application times over them."),
        (RangeMeasurements, "Ranges found in the field, and what they teach about each tag class on each material."),
        (ReferenceTables, "Materials, asset profiles, radio regions and other tables, each row with its source."),
        (Assets, "The mirror of the asset register."),
        (Registers, "Registers that assets are read from, their runs and refused rows, and what the registers should be told."),
        (Places, "The tree of locations, and the read points that cover them; names that registers and readers use are mapped to them."),
        (TagBatches, "Tags bought together, so that quality can be compared by batch."),
        (NumberingRules, "How identities of new tags are numbered under the owner's own company prefix."),
        (Changes, "Who changed what, and when."),
        (Attachments, "Which tag is or was on which asset, since when, how it was fixed and why it ended; single, and in batches of any size."),
        (Fitting, "What to fit and where, with cautions, the identity to write, the acceptance check and what to record; as JSON and as pages to print."),
        (Operations, "Health and problem types."),
    ];
}
