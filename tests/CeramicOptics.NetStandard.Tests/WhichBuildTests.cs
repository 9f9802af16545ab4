using System.Reflection;
using System.Runtime.Versioning;

namespace CeramicOptics.NetStandard.Tests;

public class WhichBuildTests
{
    [Fact]
    public void These_tests_run_against_the_netstandard_build() =>
        Assert.Equal(
            ".NETStandard,Version=v2.0",
            typeof(LayerStack).Assembly.GetCustomAttribute<TargetFrameworkAttribute>()!.FrameworkName);
}
