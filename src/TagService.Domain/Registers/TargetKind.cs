namespace TagService.Domain.Registers;

/// <summary>What a target takes.</summary>
public enum TargetKind
{
    /// <summary>Text, bounded.</summary>
    Text,

    /// <summary>A number, with a unit where the target has one.</summary>
    Number,

    /// <summary>A whole number.</summary>
    WholeNumber,

    /// <summary>Yes or no, in words of several languages.</summary>
    YesNo,

    /// <summary>One of a closed list of words.</summary>
    Choice,

    /// <summary>A list of texts.</summary>
    TextList,

    /// <summary>An amount, perhaps with its currency.</summary>
    Money,

    /// <summary>An ISO 4217 currency code.</summary>
    Currency,
}
