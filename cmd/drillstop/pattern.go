package main

import (
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"drillstop/calc/layout"
	"drillstop/db/pattern"
)

// patternRecord is a hole pattern as pattern prints it as JSON, lengths in mm;
// the names are a contract and those of the pattern file.
type patternRecord struct {
	Short    string        `json:"short,omitempty"` // by which a command calls it
	Shop     bool          `json:"shop"`            // kept in the shop file
	Name     string        `json:"name"`
	Note     string        `json:"note,omitempty"`
	Invented bool          `json:"invented"`
	Mirrored bool          `json:"mirrored"`
	SoleMin  float64       `json:"sole_min"` // that toe and heel both take
	SoleMax  float64       `json:"sole_max"`
	Pieces   []pieceRecord `json:"piece"`
}

type pieceRecord struct {
	Kind      layout.PieceKind    `json:"kind"`
	Anchor    layout.Anchor       `json:"anchor"`
	From      float64             `json:"from"`
	To        float64             `json:"to"`
	SoleMin   float64             `json:"sole_min"`
	SoleMax   float64             `json:"sole_max"`
	TrackFore float64             `json:"track_fore"`
	TrackAft  float64             `json:"track_aft"`
	TrackSole float64             `json:"track_sole,omitempty"`
	Holes     []patternHoleRecord `json:"hole"`
}

type patternHoleRecord struct {
	Order    int          `json:"order"`
	X        float64      `json:"x"`
	Y        float64      `json:"y"`
	Diameter float64      `json:"diameter"`
	Depth    float64      `json:"depth"`
	Bite     float64      `json:"bite"`
	Class    layout.Class `json:"class"`
	Locking  bool         `json:"locking"`
}

func newPattern(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "pattern",
		Short: "List, show, check and import hole patterns",
		Args:  noArgs,
		RunE: func(*cobra.Command, []string) error {
			return usage(errors.New("pattern needs list, show, check or import; drillstop pattern --help shows how"))
		},
	}
	list := &cobra.Command{
		Use: "list", Short: "List the shop's patterns, and those that come with the program: all invented", Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return a.patternList(cmd.Context()) },
	}
	show := &cobra.Command{
		Use: "show FILE|NAME", Short: "Show every hole of a pattern", Args: oneArg("pattern"),
		RunE: func(cmd *cobra.Command, args []string) error { return a.patternShow(cmd.Context(), args[0]) },
	}
	check := &cobra.Command{
		Use: "check FILE", Short: "Check a pattern file: its first mistake with line and key", Args: oneArg("pattern file"),
		RunE: func(_ *cobra.Command, args []string) error { return a.patternCheck(args[0]) },
	}
	for _, sub := range []*cobra.Command{list, show, check, newPatternImport(a)} {
		a.jsonFlag(sub)
		cmd.AddCommand(sub)
	}
	return cmd
}

func (a *app) patternList(ctx context.Context) error {
	own, err := a.shopPatterns(ctx)
	if err != nil {
		return err
	}
	list, err := pattern.Invented()
	if err != nil {
		return err
	}
	records := []patternRecord{}
	for _, p := range own {
		r := patternRecordOf(p.Layout)
		r.Shop = true
		records = append(records, r)
	}
	for _, n := range list {
		r := patternRecordOf(n.Pattern)
		r.Short = n.Name
		records = append(records, r)
	}
	if a.json {
		return writeJSON(a.out, map[string]any{"patterns": records})
	}
	for _, r := range records {
		a.print("  %-8s %-34s soles %s to %s mm%s\n", r.Short+word(r.Shop, "shop"), r.Name, plain(r.SoleMin), plain(r.SoleMax),
			word(r.Shop && r.Invented, ", invented"))
	}
	which := "All of them"
	if len(own) > 0 {
		which = "Those that come with the program"
	}
	a.print("\n  ! %s are invented: never drill a real ski by them.\n", which)
	return nil
}

func (a *app) patternShow(ctx context.Context, name string) error {
	p, err := a.patternFinder(ctx)(name)
	if err != nil {
		return err
	}
	r := patternRecordOf(p)
	if a.json {
		return writeJSON(a.out, r)
	}
	a.print("\n  %s   soles %s to %s mm%s\n", r.Name, plain(r.SoleMin), plain(r.SoleMax), word(r.Mirrored, "   left ski mirrored"))
	if r.Note != "" {
		a.print("  %s\n", r.Note)
	}
	for _, piece := range r.Pieces {
		a.printPiece(piece)
	}
	return nil
}

func (a *app) printPiece(piece pieceRecord) {
	track := ""
	if piece.TrackFore != 0 || piece.TrackAft != 0 {
		track = fmt.Sprintf("; track %s forward, %s aft", plain(piece.TrackFore), plain(piece.TrackAft))
	}
	a.print("\n  %s, from the %s; soles %s to %s%s\n", piece.Kind, piece.Anchor, plain(piece.SoleMin), plain(piece.SoleMax), track)
	if len(piece.Holes) > 0 {
		a.print("   order      x       y   bit x depth   bite  class\n")
	}
	for n := range piece.Holes {
		for _, h := range piece.Holes {
			if h.Order == n+1 {
				a.print("   %5d %6s  %6s   %-11s  %5s  %s%s\n", h.Order, plain(h.X), plain(h.Y),
					plain(h.Diameter)+" x "+plain(h.Depth), plain(h.Bite), h.Class, word(h.Locking, ", locks"))
			}
		}
	}
}

// word is a text or nothing.
func word(said bool, text string) string {
	if said {
		return text
	}
	return ""
}

func (a *app) patternCheck(path string) error {
	p, err := readPattern(path)
	if err != nil {
		return err
	}
	if a.json {
		return writeJSON(a.out, map[string]any{"ok": true, "pattern": patternRecordOf(p)})
	}
	a.print("%s: %s can be used: %d pieces, %d holes.\n", path, p.Name, len(p.Pieces), holesOf(p))
	return nil
}

func patternRecordOf(p *layout.Pattern) patternRecord {
	shortest, longest := p.Soles()
	r := patternRecord{
		Name: p.Name, Note: p.Note, Invented: p.Invented, Mirrored: p.Mirrored,
		SoleMin: float64(shortest), SoleMax: float64(longest), Pieces: []pieceRecord{},
	}
	for _, piece := range p.Pieces {
		out := pieceRecord{
			Kind: piece.Kind, Anchor: piece.Anchor, From: float64(piece.From), To: float64(piece.To),
			SoleMin: float64(piece.SoleMin), SoleMax: float64(piece.SoleMax), TrackFore: float64(piece.TrackFore),
			TrackAft: float64(piece.TrackAft), TrackSole: float64(piece.TrackSole), Holes: []patternHoleRecord{},
		}
		for _, h := range piece.Holes {
			out.Holes = append(out.Holes, patternHoleRecord{
				h.Order, float64(h.X), float64(h.Y), float64(h.Diameter), float64(h.Depth), float64(h.Bite), h.Class, h.Locking,
			})
		}
		r.Pieces = append(r.Pieces, out)
	}
	return r
}
