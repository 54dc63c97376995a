namespace TagService.Domain.Registers;

/// <summary>What stands between the whole and the broken part of numbers in text.</summary>
public enum DecimalMark
{
    /// <summary>Whatever can be meant in one way only; <c>1.234</c> is not understood, because it can be 1234.</summary>
    Unambiguous,

    /// <summary>A point; comma, apostrophe and blank group thousands.</summary>
    Point,

    /// <summary>A comma; point, apostrophe and blank group thousands.</summary>
    Comma,
}
