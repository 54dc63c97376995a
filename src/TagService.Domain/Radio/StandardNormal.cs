using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>The standard normal distribution, fast enough for inner loops.</summary>
public static class StandardNormal
{
    /// <summary>
    /// Distribution function Phi(x).
    /// Accuracy: absolute error below 1e-14 (Hart's rational form as given by West, "Better approximations to
    /// cumulative normal functions", Wilmott 2005; from memory, tested against an independent error function).
    /// </summary>
    /// <param name="x">Any finite number.</param>
    /// <returns>Probability, 0 to 1.</returns>
    public static double Cumulative(double x)
    {
        var z = Math.Abs(x);
        if (z > 37)
            return x > 0 ? 1 : 0;
        var e = Math.Exp(-z * z / 2);
        double tail;
        if (z < 7.07106781186547)
        {
            var n = (((((((((((3.52624965998911e-02 * z) + 0.700383064443688) * z) + 6.37396220353165) * z)
                + 33.912866078383) * z) + 112.079291497871) * z) + 221.213596169931) * z) + 220.206867912376;
            var d = (((((((((((((8.83883476483184e-02 * z) + 1.75566716318264) * z) + 16.064177579207) * z)
                + 86.7807322029461) * z) + 296.564248779674) * z) + 637.333633378831) * z) + 793.826512519948) * z)
                + 440.413735824752;
            tail = e * n / d;
        }
        else
        {
            tail = e / (z + (1 / (z + (2 / (z + (3 / (z + (4 / (z + 0.65))))))))) / 2.506628274631;
        }

        return x > 0 ? 1 - tail : tail;
    }

    /// <summary>Density exp(-x^2/2)/sqrt(2 pi).</summary>
    public static double Density(double x) => Math.Exp(-x * x / 2) * 0.39894228040143268;

    /// <summary>
    /// Quantile: x with Phi(x) = p. Bracketed Newton steps on <see cref="Cumulative"/> from a logistic start,
    /// to 1e-12 in x within its accuracy; tested against handbook values (Abramowitz and Stegun, table 26.5).
    /// </summary>
    /// <param name="p">Probability strictly between 0 and 1 (1e-12 to 1 - 1e-12).</param>
    public static double Quantile(double p)
    {
        Guard.InRange(p, 1e-12, 1 - 1e-12);
        double low = -8, high = 8;
        var x = Math.Clamp(Math.Log(p / (1 - p)) / 1.702, -7.5, 7.5);
        for (var i = 0; i < 60; i++)
        {
            var error = Cumulative(x) - p;
            if (error > 0)
                high = x;
            else
                low = x;
            var next = x - (error / Density(x));
            if (!(next > low && next < high))
                next = (low + high) / 2;
            if (Math.Abs(next - x) < 1e-13)
                return next;
            x = next;
        }

        return x;
    }
}
