namespace TagService.Service.Tests.Registers;

/// <summary>Tests that measure what is alive run alone.</summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class MeasuredAlone
{
    public const string Name = "register memory";
}
