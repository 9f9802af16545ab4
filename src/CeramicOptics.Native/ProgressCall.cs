namespace CeramicOptics.Native;

/// <summary>Tells a function of the caller how far long work is; an answer other than 0 stops it.</summary>
internal sealed unsafe class ProgressCall : IDisposable
{
    private readonly delegate* unmanaged[Cdecl]<double, void*, int> _call;
    private readonly void* _user;
    private readonly CancellationTokenSource _source = new();

    public ProgressCall(delegate* unmanaged[Cdecl]<double, void*, int> call, void* user)
    {
        _call = call;
        _user = user;
    }

    public CancellationToken Cancellation => _source.Token;

    /// <summary>Progress of one of several equal parts.</summary>
    public IProgress<double>? Part(int part, int of) => _call == null ? null : new Share(this, part, of);

    public void Dispose() => _source.Dispose();

    private void Report(double done)
    {
        if (!_source.IsCancellationRequested && _call(done, _user) != 0)
        {
            _source.Cancel();
        }
    }

    private sealed class Share(ProgressCall owner, int part, int of) : IProgress<double>
    {
        public void Report(double value) => owner.Report((part + value) / of);
    }
}
