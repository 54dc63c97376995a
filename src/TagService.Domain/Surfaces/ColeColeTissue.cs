namespace TagService.Domain.Surfaces;

/// <summary>Parameters of a four-pole Cole-Cole tissue model.</summary>
/// <param name="Name">Name used by material rows.</param>
/// <param name="Infinite">Permittivity at infinite frequency.</param>
/// <param name="IonicSPerM">Ionic conductivity in S/m.</param>
/// <param name="Poles">The dispersions.</param>
public sealed record ColeColeTissue(string Name, double Infinite, double IonicSPerM, IReadOnlyList<ColeColePole> Poles);

/// <summary>One dispersion.</summary>
/// <param name="Step">Fall of permittivity across it.</param>
/// <param name="TauSeconds">Relaxation time in s.</param>
/// <param name="Alpha">Broadening, 0 (Debye) to below 1.</param>
public readonly record struct ColeColePole(double Step, double TauSeconds, double Alpha);
