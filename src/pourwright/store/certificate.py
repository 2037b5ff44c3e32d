"""Certificates a bench makes for itself, so that a phone on the same network can trust it.

The authority is bound to home networks (RFC 5280 section 4.2.1.10, critical): whoever took its key
could still speak for no site on the internet.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from ipaddress import ip_address

from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from pourwright.actions.home_network import HOME_DOMAINS, HOME_NETWORKS, is_address

AUTHORITY_DAYS = 3650
# Apple Support 103769, "Requirements for trusted certificates in iOS 13 and macOS 10.15", allows
# 825 days; public authorities stop at 398.
LISTENER_DAYS = 397
# A phone whose clock is a little slow shall not find a certificate from tomorrow.
EARLIER = dt.timedelta(days=1)
CURVE = ec.SECP256R1()


@dataclass(frozen=True, slots=True)
class Signed:
    """A certificate with the key it belongs to."""

    key: ec.EllipticCurvePrivateKey
    certificate: x509.Certificate


def new_authority(now: dt.datetime) -> Signed:
    """An authority for home networks only, good for ten years."""
    key = ec.generate_private_key(CURVE)
    name = _name(f"Pourwright home bench {now:%Y-%m-%d}")
    constraints = x509.NameConstraints(
        [*map(x509.DNSName, HOME_DOMAINS), *map(x509.IPAddress, HOME_NETWORKS)], None
    )
    own_id = x509.SubjectKeyIdentifier.from_public_key(key.public_key())
    built = (
        _begun(name, name, key, now, now + dt.timedelta(days=AUTHORITY_DAYS))
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_key_usage(signs_others=True), critical=True)
        .add_extension(constraints, critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(own_id, critical=False)
    )
    return Signed(key, built.sign(key, SHA256()))


def new_listener(authority: Signed, hosts: Iterable[str], now: dt.datetime) -> Signed:
    """A certificate for these names and addresses, signed by the authority.

    It signs what it is told: the constraints of the authority make a foreign name worthless.
    """
    key = ec.generate_private_key(CURVE)
    issuer = authority.certificate
    end = min(now + dt.timedelta(days=LISTENER_DAYS), issuer.not_valid_after_utc)
    issuer_id = x509.AuthorityKeyIdentifier.from_issuer_public_key(authority.key.public_key())
    built = (
        _begun(_name("Pourwright bench on this network"), issuer.subject, key, now, end)
        .add_extension(x509.SubjectAlternativeName([_host(h) for h in hosts]), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_key_usage(signs_others=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(issuer_id, critical=False)
    )
    return Signed(key, built.sign(authority.key, SHA256()))


def hosts_in(certificate: x509.Certificate) -> frozenset[str]:
    """The names and addresses a certificate speaks for."""
    names = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    return frozenset(
        [
            *names.get_values_for_type(x509.DNSName),
            *map(str, names.get_values_for_type(x509.IPAddress)),
        ]
    )


def fingerprint(certificate: x509.Certificate) -> str:
    """SHA-256 as phones show it: `AB:CD:…`, 32 pairs."""
    return certificate.fingerprint(SHA256()).hex(":").upper()


def _host(host: str) -> x509.GeneralName:
    return x509.IPAddress(ip_address(host)) if is_address(host) else x509.DNSName(host)


def _name(common_name: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, common_name)])


def _begun(
    subject: x509.Name,
    issuer: x509.Name,
    key: ec.EllipticCurvePrivateKey,
    now: dt.datetime,
    end: dt.datetime,
) -> x509.CertificateBuilder:
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - EARLIER)
        .not_valid_after(end)
    )


def _key_usage(*, signs_others: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs_others,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=signs_others,
        crl_sign=signs_others,
        encipher_only=False,
        decipher_only=False,
    )
