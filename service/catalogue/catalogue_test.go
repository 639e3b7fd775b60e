package catalogue_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/catalogue"
)

// shop reads the invented shop of testdata.
func shop(t *testing.T) *catalogue.Catalogue {
	t.Helper()
	src, err := os.ReadFile("testdata/shop.yaml")
	require.NoError(t, err)
	got, err := catalogue.Read("shop.yaml", src)
	require.NoError(t, err)
	c, ok := got.(*catalogue.Catalogue)
	require.True(t, ok)
	return c
}

func TestReadAWholeShop(t *testing.T) {
	c := shop(t)
	assert.Equal(t, "EUR", c.Currency().Code())
	assert.Equal(t, catalogue.Money(6800), c.HourlyRate())
	assert.Len(t, c.AllMachines(), 4)
	assert.Len(t, c.AllPads(), 4)
	assert.Len(t, c.AllLiquids(), 2)
	assert.Len(t, c.AllConsumables(), 3)

	m, ok := c.Machine("panel-orbital")
	require.True(t, ok)
	assert.Equal(t, catalogue.Machine{
		ID: "panel-orbital", Class: catalogue.LongOrbital, PadMm: 125, OrbitMm: catalogue.FigureOf(15),
		SpeedMinOpm: catalogue.FigureOf(1800), SpeedMaxOpm: catalogue.FigureOf(4800),
		VibrationMs2: catalogue.FigureOf(8), VibrationKMs2: catalogue.FigureOf(1.5), NoiseDba: catalogue.FigureOf(82), MassKg: catalogue.FigureOf(2.6),
	}, m)
	p, ok := c.Pad("fibre-130")
	require.True(t, ok)
	assert.Equal(t, catalogue.Pad{ID: "fibre-130", Class: catalogue.Microfibre, DiameterMm: 130, ThicknessMm: 12, Price: 1400, LifeVehicles: 2}, p)
	l, ok := c.Liquid("last-haze")
	require.True(t, ok)
	assert.Equal(t, catalogue.Liquid{ID: "last-haze", Class: catalogue.FinishingLiquid, AbrasiveUm: catalogue.FigureOf(1), Price: 3200, PackMl: 1000, PerSectionMl: 2.5, PrimeMl: 6}, l)
	x, ok := c.Consumable("plush-towel")
	require.True(t, ok)
	assert.Equal(t, catalogue.Consumable{ID: "plush-towel", Kind: catalogue.Towel, Price: 3900, Pack: 20, PerPanel: 0.5, Uses: 50}, x)
	x, ok = c.Consumable("edge-tape")
	require.True(t, ok)
	assert.Equal(t, catalogue.Consumable{ID: "edge-tape", Kind: catalogue.MaskingTape, Price: 420, Pack: 50, PerPanel: 3, Uses: 1}, x)
}

func TestWhatIsNotGivenIsUnknown(t *testing.T) {
	m, ok := shop(t).Machine("applicator")
	require.True(t, ok)
	for name, f := range map[string]catalogue.Figure{"orbit": m.OrbitMm, "speed": m.SpeedMaxOpm, "turns": m.SpeedMaxRpm, "vibration": m.VibrationMs2, "noise": m.NoiseDba, "mass": m.MassKg} {
		_, known := f.Value()
		assert.False(t, known, name)
	}
	v, known := catalogue.FigureOf(0).Value()
	assert.True(t, known, "a known zero is known")
	assert.Zero(t, v)
}

func TestLookUpByClass(t *testing.T) {
	c := shop(t)
	ids := func(pads []catalogue.Pad) (ids []string) {
		for _, p := range pads {
			ids = append(ids, p.ID)
		}
		return ids
	}
	assert.Equal(t, []string{"middle-130", "middle-80"}, ids(c.Pads(catalogue.PolishingFoam)))
	assert.Empty(t, c.Pads(catalogue.Wool))
	assert.Len(t, c.Machines(catalogue.Rotary), 1)
	assert.Len(t, c.Liquids(catalogue.CuttingLiquid), 1)
	assert.Len(t, c.Consumables(catalogue.PanelWipe), 1)
	_, ok := c.Pad("panel-orbital")
	assert.False(t, ok, "a machine's id is no pad")
}

func TestListsAreTheCallersOwn(t *testing.T) {
	c := shop(t)
	c.AllPads()[0].ID = "spoiled"
	c.Pads(catalogue.FinishingFoam)[0].Price = 0
	p, ok := c.Pad("soft-130")
	require.True(t, ok)
	assert.Equal(t, catalogue.Money(950), p.Price)
}

func TestClassWords(t *testing.T) {
	assert.Equal(t, []string{"hand", "short-orbital", "long-orbital", "gear-driven-orbital", "rotary"}, catalogue.Words(catalogue.MachineClasses()))
	assert.Equal(t, []string{"finishing-foam", "polishing-foam", "cutting-foam", "microfibre", "wool"}, catalogue.Words(catalogue.PadClasses()))
	assert.Equal(t, []string{"finishing-liquid", "polishing-liquid", "cutting-liquid"}, catalogue.Words(catalogue.LiquidClasses()))
	assert.Equal(t, []string{"towel", "panel-wipe", "masking-tape"}, catalogue.Words(catalogue.ConsumableKinds()))
}

func TestInstrumentsAreTheShopsOwn(t *testing.T) {
	assert.Equal(t, catalogue.Instruments{
		GlossMeter: catalogue.GlossMeter{AccuracyGU: 1, ResolutionGU: 0.1, ResolutionHU: 0.1},
		FilmGauge:  catalogue.FilmGauge{Kind: catalogue.MagneticEddy, AccuracyUm: 1, AccuracyPct: 1, ResolutionUm: 0.1},
	}, shop(t).Instruments())
}
