namespace TagService.Storage.Changes;

/// <summary>A column that is worked out from others: it is left out when a change of its row is written down.</summary>
[AttributeUsage(AttributeTargets.Property)]
public sealed class NoContentAttribute : Attribute;
