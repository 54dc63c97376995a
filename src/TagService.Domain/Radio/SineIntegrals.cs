namespace TagService.Domain.Radio;

/// <summary>Sine and cosine integrals, as the induced-EMF formulas need them.</summary>
internal static class SineIntegrals
{
    private const double EulerGamma = 0.57721566490153286;

    /// <summary>
    /// Si(x) and Cin(x) = gamma + ln x - Ci(x) for 0 &lt;= x &lt;= 20 by their power series; Cin has no singularity at 0,
    /// so differences of Ci at nearly equal arguments keep their digits. Absolute error below 1e-9 up to 20 (cancellation
    /// in the alternating series grows as e^x/x). Source: Abramowitz and Stegun 5.2.14 and 5.2.16.
    /// </summary>
    public static (double Si, double Cin) Series(double x)
    {
        // Terms t_k = (-1)^k x^(k)/(k k!) alternate between the two series.
        double si = 0, cin = 0, power = 1;
        for (var k = 1; k < 120; k++)
        {
            power *= x / k;
            var term = power / k;
            switch (k & 3)
            {
                case 1: si += term; break;
                case 2: cin += term; break;
                case 3: si -= term; break;
                default: cin -= term; break;
            }

            if (k > x && term < 1e-17)
                break;
        }

        return (si, cin);
    }

    /// <summary>Ci(x) for 0 &lt; x &lt;= 20.</summary>
    public static double Ci(double x) => EulerGamma + Math.Log(x) - Series(x).Cin;
}
