package report

import (
	"borewright/process/measured"
	"fmt"
	"io"
	"strings"

	"borewright/process/qty"
	"borewright/sheets/page"
	"borewright/sheets/words"
)

// Shop lays out what finished jobs say of the shop's machines: spring
// predicted against seen, by bar and stickout, and what follows for force and
// spindle nose. Sizes are in u.
func Shop(u qty.Unit, jobs int, fits []measured.ShopFit) *page.Sheet {
	f := u
	s := &page.Sheet{Kind: "Spring, predicted and seen", Title: "What is learned from " + count(jobs, "finished job")}
	for _, fit := range fits {
		t := &page.Table{Columns: []page.Column{{Head: []string{"bar"}, Align: page.Decimal}, {Head: []string{"stickout"}, Align: page.Decimal}, {Head: []string{"cuts"}, Align: page.Decimal},
			{Head: []string{"spring", "predicted"}, Align: page.Decimal}, {Head: []string{"spring", "seen"}, Align: page.Decimal}, {Head: []string{"seen over", "predicted"}, Align: page.Decimal}, {Head: []string{"between", "cuts ±"}, Align: page.Decimal}}}
		for _, b := range fit.Bars {
			spread := "-"
			if b.Cuts > 1 {
				spread = qty.KindFactor.Bare(b.Spread)
			}
			t.Rows = append(t.Rows, page.Row{Cells: []string{f.Bare(b.Bar), f.Format(b.Stickout), fmt.Sprint(b.Cuts), f.Bare(qty.Fine(b.Predicted)), f.Bare(qty.Fine(b.Seen)), qty.KindFactor.Bare(b.Ratio), spread}})
		}
		within := func(w [2]float64) string {
			return qty.KindFactor.Bare(w[0]) + " to " + qty.KindFactor.Bare(w[1])
		}
		force, nose := qty.KindFactor.Bare(fit.Force)+" of what is predicted, "+within(fit.ForceWithin), ""
		if fit.Apart {
			nose = qty.KindFactor.Bare(fit.Root) + " of the stiffness stated, " + within(fit.RootWithin)
		} else {
			force += "; if the nose is as stated, " + within(fit.ForceIfStated)
			nose = "taken as stated; it may be " + within(fit.RootWithin) + " of that: " + words.In(u).Say(fit.Why)
		}
		kv := &page.KeyValues{Items: []page.KeyValue{page.KV("Cutting force", force), page.KV("Spindle nose", nose)}}
		kv.Items = append(kv.Items, page.KV("Fit", fmt.Sprintf("what is left over is %s times what gauge and setting explain, over %s", qty.KindRatio.Bare(fit.Misfit), count(fit.Cuts, "cut"))))
		s.Add(fit.Machine+", in "+f.Word(), t, kv, &page.Paragraph{Text: "What is said from one figure to another holds 19 times in 20: a shop's jobs differ, the cuts of one share gauge and setting, and a bar may be out by a tenth. Bar: its slenderest step. Spring is on diameter, by the depth that was cut in fact."})
	}
	s.Clean()
	return s
}

// WriteShop prints that as text.
func WriteShop(w io.Writer, u qty.Unit, jobs int, fits []measured.ShopFit) error {
	return Shop(u, jobs, fits).WriteText(w)
}

func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	if strings.HasSuffix(noun, "s") {
		noun += "e"
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
