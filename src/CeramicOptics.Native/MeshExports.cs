using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using CeramicOptics.Mapping;

namespace CeramicOptics.Native;

/// <summary>The functions of ceramic_optics.h that make meshes; each is described there.</summary>
internal static unsafe class MeshExports
{
    [UnmanagedCallersOnly(EntryPoint = "ceramic_mesh_from_triangles", CallConvs = [typeof(CallConvCdecl)])]
    public static int FromTriangles(
        float* positions, long stride, long points, int* triangles, long triangleCount, ulong* mesh) =>
        Calls.Run(() =>
        {
            Fields.Pointer(mesh, "mesh");
            *mesh = 0;
            int count = Fields.InRange(points, 0, int.MaxValue / 3, "points");
            int corners = 3 * Fields.InRange(triangleCount, 0, int.MaxValue / 3, "triangle_count");
            if (count > 0)
            {
                Fields.Pointer(positions, "positions");
                Fields.Stride(stride, 3 * sizeof(float), "stride");
            }

            if (corners > 0)
            {
                Fields.Pointer(triangles, "triangles");
            }

            float[] packed = new float[3 * count];
            for (int i = 0; i < count; i++)
            {
                new ReadOnlySpan<float>((byte*)positions + (i * stride), 3).CopyTo(packed.AsSpan(3 * i));
            }

            *mesh = Calls.Keep(Fields.Of("mesh", () => MapMesh.FromTriangles(
                packed, new ReadOnlySpan<int>(triangles, corners))));
        });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_mesh_from_edges", CallConvs = [typeof(CallConvCdecl)])]
    public static int FromEdges(long points, MeshEdge* edges, long edgeCount, ulong* mesh) => Calls.Run(() =>
    {
        Fields.Pointer(mesh, "mesh");
        *mesh = 0;
        int count = Fields.InRange(points, 0, int.MaxValue - 1, "points");
        int pairs = Fields.InRange(edgeCount, 0, int.MaxValue / 2, "edge_count");
        if (pairs > 0)
        {
            Fields.Pointer(edges, "edges");
        }

        for (int i = 0; i < pairs; i++)
        {
            // Edges that were never filled in would leave the slope unlimited without a word.
            if (edges[i].A == edges[i].B)
            {
                throw new FieldException($"edges[{i}] joins point {edges[i].A} with itself; two points are needed.");
            }
        }

        *mesh = Calls.Keep(Fields.Of("mesh", () => MapMesh.FromEdges(
            count, new ReadOnlySpan<MeshEdge>(edges, pairs))));
    });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_mesh_free", CallConvs = [typeof(CallConvCdecl)])]
    public static int Free(ulong mesh) => Calls.Run(() => Calls.Free<MapMesh>(mesh, "mesh"));
}
