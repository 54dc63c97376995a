namespace TagService.Domain.Radio;

/// <summary>Success of one look against margin where polarisation is a distribution: cubic Hermite between points 0.5 dB apart.</summary>
internal sealed class LookTable
{
    private const double StepDb = 0.5;
    private readonly double[] _value;
    private readonly double[] _slope;
    private readonly double _from;

    public LookTable(PolarizationSpread polarization, double sigmaDb)
    {
        // Below: no look succeeds. Above: the floor loss plus 7 sigma always does.
        _from = -7 * sigmaDb;
        var n = (int)Math.Ceiling(((14 * sigmaDb) + 21) / StepDb) + 1;
        _value = new double[n];
        _slope = new double[n];
        for (var i = 0; i < n; i++)
        {
            var margin = _from + (i * StepDb);
            _value[i] = polarization.Success(margin, sigmaDb);
            _slope[i] = polarization.SuccessSlope(margin, sigmaDb) * StepDb;
        }
    }

    public double At(double marginDb)
    {
        var at = (marginDb - _from) / StepDb;
        if (at <= 0)
            return 0;
        if (at >= _value.Length - 1)
            return 1;
        var i = (int)at;
        var t = at - i;
        double t2 = t * t, t3 = t2 * t;
        return (((2 * t3) - (3 * t2) + 1) * _value[i]) + ((t3 - (2 * t2) + t) * _slope[i])
            + (((3 * t2) - (2 * t3)) * _value[i + 1]) + ((t3 - t2) * _slope[i + 1]);
    }
}
