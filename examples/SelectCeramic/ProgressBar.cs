namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>A bar on the error stream while work goes on; silent when that is not a terminal.</summary>
internal sealed class ProgressBar : IProgress<double>
{
    private const int Width = 30;

    public void Report(double value)
    {
        if (Console.IsErrorRedirected)
        {
            return;
        }

        int filled = (int)Math.Round(Width * value);
        Console.Error.Write($"\r[{new string('#', filled)}{new string('.', Width - filled)}] {100 * value,3:0} %");
        if (value >= 1)
        {
            Console.Error.Write($"\r{new string(' ', Width + 8)}\r");
        }
    }
}
