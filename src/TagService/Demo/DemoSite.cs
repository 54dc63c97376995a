namespace TagService.Demo;

/// <summary>One invented site.</summary>
/// <param name="Id">Short code.</param>
/// <param name="Kind">Kind of site, the key of <see cref="DemoKind.Counts"/>.</param>
/// <param name="Name">Its name, invented.</param>
/// <param name="Source">Always "invented".</param>
public sealed record DemoSite(string Id, string Kind, string Name, string Source);
