package main

import (
	"bytes"
	"cmp"
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"slices"
	"strconv"
	"strings"
)

// mutant is a package with one thing changed.
type mutant struct {
	of   *subject
	file *source
	// The text from start to end gives way to the replacement.
	start, end   int
	replacement  string
	line, column int
	// was and becomes say the change in short; lineText is the line it is in.
	was, becomes, lineText string
	// nth tells apart the same change at several places of a line, from 1.
	nth int
}

// mutated is the file's text with the change made.
func (m mutant) mutated() []byte {
	return slices.Concat(m.file.text[:m.start], []byte(m.replacement), m.file.text[m.end:])
}

// change says what is changed to what.
func (m mutant) change() string {
	if m.nth > 1 {
		return fmt.Sprintf("%s to %s (%d)", m.was, m.becomes, m.nth)
	}
	return m.was + " to " + m.becomes
}

func (m mutant) String() string {
	return fmt.Sprintf("%s:%d:%d\t%s\t\t%s", m.file.name, m.line, m.column, m.change(), m.lineText)
}

// opposites are operators that each give way to one other. Those of arithmetic
// are only changed between numbers.
var opposites = map[token.Token]token.Token{
	token.ADD: token.SUB, token.SUB: token.ADD, token.MUL: token.QUO, token.QUO: token.MUL, token.REM: token.MUL,
	token.ADD_ASSIGN: token.SUB_ASSIGN, token.SUB_ASSIGN: token.ADD_ASSIGN,
	token.MUL_ASSIGN: token.QUO_ASSIGN, token.QUO_ASSIGN: token.MUL_ASSIGN, token.REM_ASSIGN: token.MUL_ASSIGN,
	token.INC: token.DEC, token.DEC: token.INC,
	token.LAND: token.LOR, token.LOR: token.LAND,
	token.EQL: token.NEQ, token.NEQ: token.EQL,
	token.LSS: token.GEQ, token.GEQ: token.LSS, token.GTR: token.LEQ, token.LEQ: token.GTR,
}

// boundaries are comparisons that let the equal in or keep it out.
var boundaries = map[token.Token]token.Token{
	token.LSS: token.LEQ, token.LEQ: token.LSS, token.GTR: token.GEQ, token.GEQ: token.GTR,
}

// extremes are functions that give way to each other.
var extremes = map[string]string{"min": "max", "max": "min", "Min": "Max", "Max": "Min"}

// mutants are all changes that can be made to the package, in the order of its
// text.
func (s *subject) mutants() []mutant {
	var all []mutant
	for _, f := range s.files {
		c := collector{subject: s, file: f, skipped: map[ast.Node]bool{}}
		ast.Inspect(f.syntax, c.visit)
		slices.SortStableFunc(c.found, func(a, b mutant) int { return cmp.Compare(a.start, b.start) })
		type same struct {
			line         int
			was, becomes string
		}
		times := map[same]int{}
		for _, m := range c.found {
			which := same{m.line, m.was, m.becomes}
			times[which]++
			m.nth = times[which]
			all = append(all, m)
		}
	}
	return all
}

// collector gathers the mutants of one file.
type collector struct {
	*subject
	file    *source
	skipped map[ast.Node]bool
	found   []mutant
}

// add notes a change of the text between two places.
func (c *collector) add(from, to token.Pos, replacement, was, becomes string) {
	at := c.set.Position(from)
	m := mutant{of: c.subject, file: c.file, start: at.Offset, end: c.set.Position(to).Offset, replacement: replacement,
		line: at.Line, column: at.Column, was: was, becomes: becomes}
	begin := bytes.LastIndexByte(c.file.text[:m.start], '\n') + 1
	line, _, _ := bytes.Cut(c.file.text[begin:], []byte("\n"))
	m.lineText = string(bytes.TrimSpace(line))
	c.found = append(c.found, m)
}

// swap notes the change of an operator or a name.
func (c *collector) swap(at token.Pos, was, becomes string) {
	c.add(at, at+token.Pos(len(was)), becomes, was, becomes)
}

// text is the source of a node, in one line.
func (c *collector) text(n ast.Node) string {
	from, to := c.set.Position(n.Pos()).Offset, c.set.Position(n.End()).Offset
	return strings.Join(strings.Fields(string(c.file.text[from:to])), " ")
}

// is tells whether an expression is of a basic type of the kind.
func (c *collector) is(e ast.Expr, kind types.BasicInfo) bool {
	t := c.info.TypeOf(e)
	if t == nil {
		return false
	}
	basic, ok := t.Underlying().(*types.Basic)
	return ok && basic.Info()&kind != 0
}

// visit notes what can be changed at a node, and tells whether to look into it.
func (c *collector) visit(n ast.Node) bool {
	if n == nil || c.skipped[n] {
		return false
	}
	switch n := n.(type) {
	case *ast.ArrayType:
		// A length that a type is made of is a matter of the compiler's.
		if n.Len != nil {
			c.skipped[n.Len] = true
		}
	case *ast.ValueSpec:
		// What is counted by iota only needs to differ.
		return !slices.ContainsFunc(n.Values, c.counts)
	case *ast.CallExpr:
		return c.visitCall(n)
	case *ast.BinaryExpr:
		c.visitBinary(n)
	case *ast.AssignStmt:
		if to, ok := opposites[n.Tok]; ok && c.is(n.Lhs[0], types.IsNumeric) {
			c.swap(n.TokPos, n.Tok.String(), to.String())
		}
	case *ast.IncDecStmt:
		c.swap(n.TokPos, n.Tok.String(), opposites[n.Tok].String())
	case *ast.UnaryExpr:
		if n.Op == token.SUB || n.Op == token.NOT {
			c.add(n.OpPos, n.X.Pos(), "", c.text(n), c.text(n.X))
		}
	case *ast.BasicLit:
		c.visitNumber(n)
	case *ast.IfStmt:
		// The condition stays, as what it uses would be unused without it.
		from, to := c.set.Position(n.Cond.Pos()).Offset, c.set.Position(n.Cond.End()).Offset
		c.add(n.Cond.Pos(), n.Cond.End(), "false && ("+string(c.file.text[from:to])+")", "if "+c.text(n.Cond), "if false")
	case *ast.ReturnStmt:
		for _, e := range n.Results {
			c.visitReturned(e)
		}
	}
	return true
}

// counts tells whether an expression has iota in it.
func (c *collector) counts(e ast.Expr) bool {
	found := false
	ast.Inspect(e, func(n ast.Node) bool {
		name, ok := n.(*ast.Ident)
		found = found || ok && c.info.Uses[name] == types.Universe.Lookup("iota")
		return !found
	})
	return found
}

// called is the full name of the function that a call names, empty where it
// calls a value.
func (c *collector) called(call *ast.CallExpr) (name string, at *ast.Ident) {
	switch f := ast.Unparen(call.Fun).(type) {
	case *ast.Ident:
		at = f
	case *ast.SelectorExpr:
		at = f.Sel
	default:
		return "", nil
	}
	switch f := c.info.Uses[at].(type) {
	case *types.Builtin:
		return f.Name(), at
	case *types.Func:
		return f.FullName(), at
	}
	return "", nil
}

// visitCall notes the change of a minimum to a maximum, and passes over what
// only words an error and over capacities, which change nothing but the speed.
func (c *collector) visitCall(call *ast.CallExpr) bool {
	switch name, at := c.called(call); name {
	case "panic", "fmt.Errorf", "errors.New":
		return false
	case "make":
		if len(call.Args) == 3 {
			c.skipped[call.Args[2]] = true
		}
	case "math.Inf":
		// Only the sign counts.
		number := call.Args[0]
		if negative, ok := number.(*ast.UnaryExpr); ok {
			number = negative.X
		}
		c.skipped[number] = true
	case "min", "max", "math.Min", "math.Max":
		c.swap(at.Pos(), at.Name, extremes[at.Name])
	}
	return true
}

func (c *collector) visitBinary(n *ast.BinaryExpr) {
	if to, ok := boundaries[n.Op]; ok {
		c.swap(n.OpPos, n.Op.String(), to.String())
	}
	to, ok := opposites[n.Op]
	if arithmetic := n.Op.Precedence() >= token.ADD.Precedence(); ok && (!arithmetic || c.is(n, types.IsNumeric)) {
		c.swap(n.OpPos, n.Op.String(), to.String())
	}
}

// visitNumber makes a whole number one more and another a tenth more, and one
// where there is nothing.
func (c *collector) visitNumber(n *ast.BasicLit) {
	if n.Kind != token.INT && n.Kind != token.FLOAT {
		return
	}
	value := constant.MakeFromLiteral(n.Value, n.Kind, 0)
	var to string
	switch {
	case c.is(n, types.IsInteger) || constant.Sign(value) == 0:
		to = constant.BinaryOp(value, token.ADD, constant.MakeInt64(1)).ExactString()
	default:
		v, _ := constant.Float64Val(value)
		to = strconv.FormatFloat(v*1.1, 'g', 10, 64)
	}
	// A number with a point keeps one, as division depends on it.
	if n.Kind == token.FLOAT && !strings.ContainsAny(to, ".e") {
		to += ".0"
	}
	c.swap(n.Pos(), n.Value, to)
}

// visitReturned negates a truth that is returned, unless negating its own
// operator does the same.
func (c *collector) visitReturned(e ast.Expr) {
	if !c.is(e, types.IsBoolean) {
		return
	}
	switch inner := ast.Unparen(e).(type) {
	case *ast.UnaryExpr:
		return
	case *ast.BinaryExpr:
		if inner.Op != token.LAND && inner.Op != token.LOR {
			return
		}
	case *ast.Ident:
		if inner.Name == "true" || inner.Name == "false" {
			c.swap(inner.Pos(), inner.Name, map[string]string{"true": "false", "false": "true"}[inner.Name])
			return
		}
	}
	from, to := c.set.Position(e.Pos()).Offset, c.set.Position(e.End()).Offset
	negated := "!(" + string(c.file.text[from:to]) + ")"
	c.add(e.Pos(), e.End(), negated, "return "+c.text(e), "return !("+c.text(e)+")")
}
