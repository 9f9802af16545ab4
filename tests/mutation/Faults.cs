using System.Globalization;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace CeramicOptics.Mutation;

/// <summary>Which faults a piece of source can be given.</summary>
internal static class Faults
{
    private static readonly Dictionary<SyntaxKind, string[]> Operators = new()
    {
        [SyntaxKind.AddExpression] = ["-"],
        [SyntaxKind.SubtractExpression] = ["+"],
        [SyntaxKind.MultiplyExpression] = ["/"],
        [SyntaxKind.DivideExpression] = ["*"],
        [SyntaxKind.ModuloExpression] = ["*"],
        [SyntaxKind.LessThanExpression] = ["<=", ">"],
        [SyntaxKind.LessThanOrEqualExpression] = ["<", ">"],
        [SyntaxKind.GreaterThanExpression] = [">=", "<"],
        [SyntaxKind.GreaterThanOrEqualExpression] = [">", "<"],
        [SyntaxKind.EqualsExpression] = ["!="],
        [SyntaxKind.NotEqualsExpression] = ["=="],
        [SyntaxKind.LogicalAndExpression] = ["||"],
        [SyntaxKind.LogicalOrExpression] = ["&&"],
        [SyntaxKind.AddAssignmentExpression] = ["-="],
        [SyntaxKind.SubtractAssignmentExpression] = ["+="],
        [SyntaxKind.MultiplyAssignmentExpression] = ["/="],
        [SyntaxKind.DivideAssignmentExpression] = ["*="],
    };

    private static readonly Dictionary<string, string> Calls = new()
    {
        ["Min"] = "Max", ["Max"] = "Min", ["Floor"] = "Ceiling", ["Ceiling"] = "Floor", ["Any"] = "All",
        ["All"] = "Any", ["Exists"] = "TrueForAll", ["TrueForAll"] = "Exists", ["First"] = "Last", ["Last"] = "First",
        ["OrderBy"] = "OrderByDescending", ["OrderByDescending"] = "OrderBy", ["MinBy"] = "MaxBy", ["MaxBy"] = "MinBy",
        ["Sin"] = "Cos", ["Cos"] = "Sin", ["FirstOrDefault"] = "LastOrDefault", ["LastOrDefault"] = "FirstOrDefault",
    };

    /// <summary>Texts that may stand in place of the node; none where the compiler needs a constant.</summary>
    public static IEnumerable<string> Of(SyntaxNode node) =>
        node is ExpressionSyntax or ExpressionStatementSyntax && !node.AncestorsAndSelf().Any(IsConstant)
            ? OfCode(node)
            : [];

    private static IEnumerable<string> OfCode(SyntaxNode node)
    {
        bool declares = node.DescendantNodes().Any(n => n is SingleVariableDesignationSyntax);
        switch (node)
        {
            case ExpressionStatementSyntax { Expression: InvocationExpressionSyntax or AssignmentExpressionSyntax }
                when !declares:
                yield return ";";
                if (((ExpressionStatementSyntax)node).Expression is AssignmentExpressionSyntax assignment
                    && Operators.TryGetValue(assignment.Kind(), out string[]? opposite))
                {
                    yield return $"{assignment.Left} {opposite[0]} {assignment.Right};";
                }

                break;
            case ExpressionStatementSyntax { Expression: PostfixUnaryExpressionSyntax step }:
                yield return $"{step.Operand}{(step.IsKind(SyntaxKind.PostIncrementExpression) ? "--" : "++")};";
                break;
            case BinaryExpressionSyntax { RawKind: (int)SyntaxKind.CoalesceExpression } either:
                yield return either.Right.ToString();
                break;
            case BinaryExpressionSyntax binary when !declares && Operators.TryGetValue(binary.Kind(), out var others):
                foreach (string other in others)
                {
                    yield return other is "||" or "&&"
                        ? $"({binary.Left}) {other} ({binary.Right})"
                        : $"{binary.Left} {other} {binary.Right}";
                }

                break;
            case PrefixUnaryExpressionSyntax unary when !declares
                && unary.Kind() is SyntaxKind.UnaryMinusExpression or SyntaxKind.LogicalNotExpression:
                yield return unary.Operand.ToString();
                break;
            case LiteralExpressionSyntax { Token.Value: int or long } number:
                yield return number + " + 1";
                break;
            case LiteralExpressionSyntax { Token.Value: double value }:
                yield return value == 0 ? "1.0" : (value * 1.1).ToString("R", CultureInfo.InvariantCulture) + "d";
                break;
            case LiteralExpressionSyntax { Token.Value: bool flag }:
                yield return flag ? "false" : "true";
                break;
            case InvocationExpressionSyntax { Expression: MemberAccessExpressionSyntax access } call:
                if (Calls.TryGetValue(access.Name.Identifier.Text, out string? swapped))
                {
                    yield return $"{access.Expression}.{swapped}{call.ArgumentList}";
                }
                else if (access.ToString() is "Math.Abs" or "Math.Sqrt" or "Math.Exp" or "Math.Log")
                {
                    yield return call.ArgumentList.Arguments[0].ToString();
                }

                break;
        }

        bool isCondition = node.Parent switch
        {
            IfStatementSyntax { Condition: var condition } => condition == node,
            WhileStatementSyntax { Condition: var condition } => condition == node,
            ConditionalExpressionSyntax { Condition: var condition } => condition == node,
            _ => false,
        };
        if (isCondition && !declares && node is not (BinaryExpressionSyntax or PrefixUnaryExpressionSyntax
            or LiteralExpressionSyntax))
        {
            yield return $"!({node})";
        }
    }

    private static bool IsConstant(SyntaxNode node) => node is AttributeSyntax or EnumMemberDeclarationSyntax
        or PatternSyntax or SwitchLabelSyntax or ParameterSyntax
        || node is FieldDeclarationSyntax field && field.Modifiers.Any(SyntaxKind.ConstKeyword)
        || node is LocalDeclarationStatementSyntax local && local.Modifiers.Any(SyntaxKind.ConstKeyword);
}
