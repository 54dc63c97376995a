using CsCheck;
using TagService.Domain.Identity;
using TagService.Domain.Identity.Schemes;
using TagService.Domain.Identity.Text;

namespace TagService.Domain.Tests.Identity;

/// <summary>Random identities of every kind, by the rules of their URNs; a new scheme of a known kind needs nothing here.</summary>
internal static class IdentityGens
{
    private const string Set82 = "!\"%&'()*+,-./0123456789:;<=>?ABCDEFGHIJKLMNOPQRSTUVWXYZ_abcdefghijklmnopqrstuvwxyz";
    private const string Set39 = "#-/0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
    private const string SetCage = "0123456789ABCDEFGHJKLMNPQRSTUVWXYZ";

    private static readonly string[] Hosts = ["id.example.com", "EXAMPLE.COM", "www.example.co.uk", "tags.example.tech", "a.b", "X-1.EXAMPLE.ORG:8443", "covid.example"];

    public static readonly Gen<IdentityRead> Identity = Gen.Enum<IdentityKind>().Where(k => k != IdentityKind.Raw).SelectMany(OfKind);

    /// <summary>A scheme with an identity of its kind; not all of them go in.</summary>
    public static Gen<EpcContent> ContentFor(EpcScheme scheme) =>
        Gen.Select(OfKind(scheme.Kind), Gen.Int[0, scheme.HighestFilter], Date, Gen.OneOf(Hosts), Gen.Bool).Select((identity, filter, date, host, more) => identity.Content with
        {
            Filter = filter,
            CompanyPrefixLength = scheme.HoldsCompanyPrefix ? identity.Content.CompanyPrefixLength : 0,
            Date = scheme.HoldsDate ? date : null,
            HostName = scheme.HoldsHostName ? host : null,
            HasMoreData = more && !scheme.HasTagUri,
        });

    public static Gen<IdentityRead> OfKind(IdentityKind kind) => kind switch
    {
        IdentityKind.Gid => Read(Gen.Select(Gen.UInt[0, (1u << 28) - 1], Gen.UInt[0, (1u << 24) - 1], Gen.ULong[0, (1ul << 36) - 1]).Select((m, c, s) => $"urn:epc:id:gid:{m}.{c}.{s}")),
        IdentityKind.Usdod => Read(Gen.Select(Code, Gen.ULong[0, (1ul << 36) - 1]).Select((c, s) => $"urn:epc:id:usdod:{c}.{s}")),
        IdentityKind.Adi => Read(Gen.Select(Code, Text(Set39.Replace("#", ""), 0, 32), Gen.Bool, Text(Set39.Replace("#", ""), 1, 29)).Select((c, p, mark, s) =>
            $"urn:epc:id:adi:{c}.{UrnEscapes.Escape(p)}.{UrnEscapes.Escape((mark ? "#" : "") + s)}")),
        _ => Gen.Int[6, 12].SelectMany(length => Gs1(KeyFormats.Of(kind), length)),
    };

    private static Gen<IdentityRead> Gs1(KeyFormat format, int prefixLength)
    {
        var reference = format.IsFixed
            ? Digits(format.OtherDigits(prefixLength))
            : Gen.OneOf(PlainNumber, Text(format.PrimarySet == CharacterSet.SixBit ? Set39 : Set82, 1, format.MaxPrimary - prefixLength));
        // Half of the serials are such as the 96-bit schemes take.
        var serial = format.MaxSerial == 0
            ? Gen.Const("")
            : Gen.OneOf(PlainNumber, Digits(1, format.MaxSerial), Text(format.SerialSet == CharacterSet.Digits ? "0123456789" : Set82, 1, format.MaxSerial),
                Text(format.SerialSet == CharacterSet.Digits ? "0123456789" : "0123456789ABCDEF", 1, format.MaxSerial), Gen.Const("0"));
        return Gen.Select(Digits(prefixLength), reference, Digits(format.TailDigits), serial)
            .Select((p, r, t, s) => Gs1Keys.OfParts(format, p, r, t, s)).Where(r => r is IdentityRead).Select(r => (IdentityRead)r);
    }

    private static readonly Gen<string> PlainNumber = Gen.UInt[0, 999_999].Select(n => n.ToString(System.Globalization.CultureInfo.InvariantCulture));

    private static readonly Gen<string> Code = Text(SetCage, 5, 6);

    private static readonly Gen<PrioritisedDate?> Date =
        Gen.Select(Gen.Int[0, 6], Gen.Int[0, 99], Gen.Int[1, 12], Gen.Int[0, 28]).Select((t, y, m, d) => (PrioritisedDate?)new PrioritisedDate(t, y, m, d));

    private static Gen<string> Digits(int count) => Digits(count, count);

    private static Gen<string> Digits(int least, int most) => Text("0123456789", least, most);

    private static Gen<string> Text(string characters, int least, int most) => Gen.OneOf(characters.ToCharArray()).Array[least, most].Select(c => new string(c));

    private static Gen<IdentityRead> Read(Gen<string> text) => text.Select(t => (IdentityRead)IdentityText.Parse(t));
}
