using TagService.Domain.Surfaces;

namespace TagService.Domain.Tests.Surfaces;

/// <summary>
/// Static permittivity of water by IAPWS R8-97 (Fernandez, Goodwin, Lemmon, Levelt Sengers and Williams, J. Phys. Chem. Ref. Data 26, 1997):
/// an independent formula to hold the Debye fit against. Coefficients from memory, confirmed by the published check value.
/// </summary>
public sealed class WaterOracle
{
    private static readonly (double N, double I, double J)[] Terms =
    [
        (0.978224486826, 1, 0.25), (-0.957771379375, 1, 1), (0.237511794148, 1, 2.5), (0.714692244396, 2, 1.5),
        (-0.298217036956, 3, 1.5), (-0.108863472196, 3, 2.5), (0.949327488264e-1, 4, 2), (-0.980469816509e-2, 5, 2),
        (0.165167634970e-4, 6, 5), (0.937359795772e-4, 7, 0.5), (-0.123179218720e-9, 10, 10),
    ];

    // IAPWS check value as carried by open-source code documentation (secondary): 373 K, 958.46 kg/m3 gives 55.566.
    [Fact]
    public void Iapws_PublishedCheckValue_IsReproduced() => Assert.Equal(55.566, Static(373, 958.46), 0.01);

    // Densities of water at atmospheric pressure (handbook values, from memory to 0.1 kg/m3).
    [Theory]
    [InlineData(0, 999.8)]
    [InlineData(10, 999.7)]
    [InlineData(25, 997.0)]
    [InlineData(40, 992.2)]
    [InlineData(60, 983.2)]
    public void DebyeStatic_OverTemperature_AgreesWithIapws(double celsius, double density) =>
        Assert.Equal(Static(celsius + 273.15, density), WaterPermittivity.StaticValue(celsius), 0.7);

    private static double Static(double kelvin, double densityKgM3)
    {
        const double k = 1.380658e-23, avogadro = 6.0221367e23, alpha = 1.636e-40, e0 = 8.854187817620389e-12, mu = 6.138e-30;
        const double molar = 0.018015268, tc = 647.096, rc = 322 / molar;
        var rho = densityKgM3 / molar;
        double delta = rho / rc, tau = tc / kelvin;
        var g = 1 + (0.196096504426e-2 * delta * Math.Pow((kelvin / 228) - 1, -1.2));
        foreach (var (n, i, j) in Terms)
            g += n * Math.Pow(delta, i) * Math.Pow(tau, j);
        var a = avogadro * mu * mu * rho * g / (e0 * k * kelvin);
        var b = avogadro * alpha * rho / (3 * e0);
        return (1 + a + (5 * b) + Math.Sqrt(9 + (2 * a) + (18 * b) + (a * a) + (10 * a * b) + (9 * b * b))) / (4 - (4 * b));
    }
}
