using CeramicOptics.Mapping;
using static CeramicOptics.Tests.Unit.WallSuggestionTests;

namespace CeramicOptics.Tests.Unit;

/// <summary>Suggested walls computed again after a change, and stopped.</summary>
public class WallUpdateTests
{
    /// <summary>Whatever changes, an update is the full computation, to the last bit.</summary>
    [Theory]
    [InlineData(1, 0.3)]
    [InlineData(2, 0)]
    [InlineData(3, 5)]
    public void An_update_is_the_full_computation(int seed, double slope)
    {
        Random random = new(seed);
        PlaneMesh plane = new(3, 3, 0.1, turned: 1);
        int count = plane.Flat.Count;
        ThicknessMap other = new([OnLight, OnBlack, OnBrown, Hopeless]);
        byte[] zones = plane.Each(point => (byte)(point.X < 0 ? 0 : point.Y < 0 ? 1 : point.Y < 1 ? 2 : 3));
        double[] available = plane.Each(_ => 1.0), minima = plane.Each(_ => double.NaN),
            maxima = plane.Each(_ => double.NaN);
        int[] margin = [plane.At(-1.5, 0), plane.At(-1.5, 0.5)];
        WallLimits limits = WallLimits.None;
        ThicknessMap map = Map;
        WallSuggestion? last = null;
        int differing = 0;
        for (int step = 0; step < 60; step++)
        {
            int point = random.Next(count);
            switch (step % 6)
            {
                case 0: map = random.Next(2) == 0 ? Map : other; break;
                case 1: zones[point] = (byte)random.Next(4); break;
                case 2: available[point] = random.Next(2) == 0 ? double.NaN : random.NextDouble(); break;
                case 3: (minima[point], maxima[point]) = (2 * random.NextDouble(), double.NaN); break;
                case 4: minima[point] = maxima[point] = random.Next(2) == 0 ? double.NaN : 1.5; break;
                default: (minima[point], maxima[point]) = (double.NaN, 0.3 + random.NextDouble()); break;
            }

            limits = step < 10 ? limits : step % 6 < 3 ? limits
                : WallLimits.None.WithPoints(minima, maxima).WithMargin(step < 30 ? [] : margin, 0.1, 1);
            WallSuggestion full = WallSuggestion.Find(map, plane.Mesh, available, slope, zones, limits: limits),
                updated = WallSuggestion.Find(
                    map, plane.Mesh, available, slope, zones, limits: limits, previous: last);
            Assert.Equal(full.ThicknessesMm.ToArray(), updated.ThicknessesMm.ToArray());
            Assert.Equal(full.ReductionsMm.ToArray(), updated.ReductionsMm.ToArray());
            Assert.Equal(full.Statuses.ToArray(), updated.Statuses.ToArray());
            Assert.Equal(full.Cautions, updated.Cautions);
            differing += last is not null && !full.ThicknessesMm.SequenceEqual(last.ThicknessesMm) ? 1 : 0;
            last = updated;
        }

        Assert.True(differing > (slope == 0 ? 2 : 10));
    }

    [Fact]
    public void Long_work_reports_stops_and_leaves_the_previous_one()
    {
        PlaneMesh plane = new(20, 20, 0.1);
        int count = plane.Flat.Count;
        double[] available = new double[count];
        byte[] zones = plane.Each(point => (byte)(point.X < 0 ? 0 : 1)), others = plane.Each(
            point => (byte)(point.X < -9 ? 0 : 1));
        WallLimits limits = WallLimits.None.WithMargin([0], 0.2, 1);
        List<double> done = [];
        WallSuggestion first = WallSuggestion.Find(
            Map, plane.Mesh, available, Slope, zones, limits: limits, progress: new Immediate(done.Add));
        Assert.Equal(done.Order(), done);
        Assert.True(done.Count > 5 && done[^1] == 1);
        double[] before = first.ThicknessesMm.ToArray();
        foreach (double stop in (double[])[0, 0.3])
        {
            using CancellationTokenSource source = new();
            Immediate stops = new(share =>
            {
                if (share >= stop)
                {
                    source.Cancel();
                }
            });
            Assert.ThrowsAny<OperationCanceledException>(() => WallSuggestion.Find(
                Map, plane.Mesh, available, Slope, others, previous: first, progress: stops,
                cancellation: source.Token));
            Assert.Equal(before, first.ThicknessesMm.ToArray());
        }

        Assert.ThrowsAny<OperationCanceledException>(() => WallSuggestion.Find(
            Map, plane.Mesh, available, Slope, zones, cancellation: new CancellationToken(true)));
        Assert.Equal(
            WallSuggestion.Find(Map, plane.Mesh, available, Slope, others).ThicknessesMm.ToArray(),
            WallSuggestion.Find(Map, plane.Mesh, available, Slope, others, previous: first).ThicknessesMm.ToArray());

        // What one call allocates: the answer and what an update needs, 34 bytes a point.
        long start = GC.GetAllocatedBytesForCurrentThread();
        WallSuggestion.Find(Map, plane.Mesh, available, Slope, zones, previous: first);
        Assert.InRange((GC.GetAllocatedBytesForCurrentThread() - start) / (double)count, 1, 40);
    }
}
