using CsCheck;
using TagService.Domain.Radio;

namespace TagService.Domain.Tests.Radio;

/// <summary>Probability of a read in k looks against slow obvious versions.</summary>
public sealed class ReadSuccessTests
{
    // Normal shadowing, P = Phi(margin/sigma) (computed from the normal table): rows of margin, sigma, probability.
    [Theory]
    [InlineData(0, 3, 0.5)]
    [InlineData(3, 3, 0.8413)]
    [InlineData(5, 5.2, 0.8319)]
    [InlineData(-3, 5.2, 0.2820)]
    [InlineData(10, 9.6, 0.8512)]
    [InlineData(3.84, 3, 0.90)]
    public void OneLook_MarginOverSigma_MatchesTheTable(double margin, double sigma, double probability) =>
        Assert.Equal(probability, ReadSuccess.Probability(margin, 0, sigma, PolarizationSpread.Aligned, 1), 0.0003);

    // Slow oracle: dense integration over what the looks share, direct power of the miss probability.
    [Fact]
    public void ManyLooks_DenseIntegration_Agrees() =>
        Gen.Select(Gen.Double[-25, 35], Gen.Double[0.5, 6], Gen.Double[1, 6], Gen.Int[1, 100], Gen.Int[0, PolarizationSpread.All.Count - 1])
            .Sample((margin, shared, look, k, which) =>
            {
                var spread = PolarizationSpread.All[which];
                var fast = ReadSuccess.Probability(margin, shared, look, spread, k);
                Assert.Equal(Dense(margin, shared, look, spread, k), fast, 2e-4);
            }, iter: 150);

    // Monte Carlo with a fixed seed: the definition itself, 200 000 draws, standard error below 0.0012.
    [Theory]
    [InlineData(2, 2.8, 4, 5)]
    [InlineData(-3, 2.8, 3, 20)]
    [InlineData(8, 1.5, 4.5, 2)]
    public void ManyLooks_MonteCarlo_Agrees(double margin, double shared, double look, int k)
    {
        var random = new Random(20251125);
        var hits = 0;
        const int n = 200_000;
        for (var i = 0; i < n; i++)
        {
            var s = Normal() * shared;
            for (var j = 0; j < k; j++)
            {
                if (margin + s + (look * Normal()) - PolarizationSpread.LossDb(random.NextDouble() * 90) > 0)
                {
                    hits++;
                    break;
                }
            }
        }

        Assert.Equal((double)hits / n, ReadSuccess.Probability(margin, shared, look, PolarizationSpread.AnyRoll, k), 0.005);

        double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
    }

    [Fact]
    public void Margin_ForAProbability_InvertsIt() =>
        Gen.Select(Gen.Double[0.02, 0.98], Gen.Double[0, 5], Gen.Double[1, 5], Gen.Int[1, 30], Gen.Int[0, PolarizationSpread.All.Count - 1])
            .Sample((p, shared, look, k, which) =>
            {
                var spread = PolarizationSpread.All[which];
                var margin = ReadSuccess.MarginDb(p, shared, look, spread, k);
                Assert.Equal(p, ReadSuccess.Probability(margin, shared, look, spread, k), 1e-5);
            }, iter: 100);

    // Looks that share everything do not help: with no spread of their own the second look repeats the first.
    [Fact]
    public void ManyLooks_NothingVariesBetweenThem_GainNothing()
    {
        var one = ReadSuccess.Probability(1, 3, 0.02, PolarizationSpread.Aligned, 1);
        var ten = ReadSuccess.Probability(1, 3, 0.02, PolarizationSpread.Aligned, 10);
        Assert.Equal(one, ten, 0.01);
    }

    private static double Dense(double margin, double shared, double look, PolarizationSpread spread, int k)
    {
        const int n = 1500;
        double sum = 0, weight = 0;
        for (var i = 0; i < n; i++)
        {
            var z = -7 + ((i + 0.5) * 14 / n);
            var w = Math.Exp(-z * z / 2);
            weight += w;
            sum += w * (1 - Math.Pow(1 - spread.Success(margin + (shared * z), look), k));
        }

        return sum / weight;
    }
}
